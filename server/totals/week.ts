import type { Day, PlayerTerm } from "../days/day";
import { weekdayOf } from "../plan/date";

/** Seconds, except the load in points and the days. */
export interface WeekTotals {
  readonly week: number;
  readonly days: readonly Day[];
  readonly clock: number;
  readonly playing: number;
  readonly upper: number;
  readonly load: number;
  /** The longest stretch of the week. */
  readonly stretch: number;
  /** Days on which anything was played. */
  readonly daysPlayed: number;
  /** No closed, light, ill or eased day among its days of practice: a week to measure others by. */
  readonly normal: boolean;
}

/** The totals of each taught week, bookings included (the clock is of practice alone). */
export function weekTotals(term: PlayerTerm): readonly WeekTotals[] {
  const weeks: Day[][] = Array.from({ length: term.weeks }, () => []);
  for (const day of term.days) if (day.week !== undefined) weeks[day.week - 1]!.push(day);
  return weeks.map((days, index) => sumOf(days, index + 1, term.term.practice));
}

function sumOf(days: readonly Day[], week: number, practice: number): WeekTotals {
  let clock = 0;
  let playing = 0;
  let upper = 0;
  let load = 0;
  let stretch = 0;
  let daysPlayed = 0;
  // A week that lost a day of practice to the term's first or last day is a part week.
  let inTerm = 0;
  for (const { date } of days) inTerm |= 1 << weekdayOf(date);
  let normal = (practice & ~inTerm) === 0;
  for (const day of days) {
    clock += day.totals.clock;
    playing += day.totals.playing;
    upper += day.totals.upper;
    load += day.totals.load;
    stretch = Math.max(stretch, day.totals.stretch);
    if (day.totals.playing > 0) daysPlayed++;
    if (day.state === "closed" || day.state === "light" || day.state === "ill" || day.share !== 1)
      normal = false;
  }
  return { week, days, clock, playing, upper, load, stretch, daysPlayed, normal };
}
