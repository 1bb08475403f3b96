import type { Booking } from "../plan/term";
import type { Day, DaySession } from "./day";

const NOTHING: Day["totals"] = { clock: 0, playing: 0, upper: 0, load: 0, stretch: 0 };

/** The totals of a day: its sessions and what is booked beside them. */
export function dayTotals(sessions: readonly DaySession[], bookings: readonly Booking[]): Day["totals"] {
  if (sessions.length === 0 && bookings.length === 0) return NOTHING;
  let clock = 0;
  let playing = 0;
  let upper = 0;
  let load = 0;
  let stretch = 0;
  for (const session of sessions) {
    clock += session.clock;
    playing += session.playing;
    upper += session.upper;
    load += session.load;
    stretch = Math.max(stretch, session.stretch);
  }
  // Bookings ask for the same lips, but a clock budget counts practice alone.
  for (const { asks } of bookings) {
    playing += asks.playing;
    upper += asks.upper;
    load += asks.load;
    stretch = Math.max(stretch, asks.stretch);
  }
  return { clock, playing, upper, load, stretch };
}
