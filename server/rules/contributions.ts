import type { Day, DayItem, Sums } from "../days/day";
import { type Placement, placementName } from "../days/placement";
import { fifthsOf } from "../music/key";
import type { Booking } from "../plan/term";
import { minutes, quoted } from "./words";

export type Summed = "clock" | "playing" | "upper" | "load";

/** One of the sums of a day or a week, chosen in so many words: every day of every player is asked. */
export function summed(sums: Sums, quantity: Summed): number {
  switch (quantity) {
    case "clock":
      return sums.clock;
    case "playing":
      return sums.playing;
    case "upper":
      return sums.upper;
    case "load":
      return sums.load;
  }
}

export type Contribution =
  | { readonly item: DayItem; readonly booking: undefined; readonly amount: number }
  | { readonly item: undefined; readonly booking: Booking; readonly amount: number };

/** What adds to a day's figure, the most first. The clock counts practice alone. */
export function contributions(day: Day, quantity: Summed): readonly Contribution[] {
  const all: Contribution[] = [];
  for (const session of day.sessions) {
    for (const item of session.items) {
      if (item[quantity] > 0) all.push({ item, booking: undefined, amount: item[quantity] });
    }
  }
  if (quantity !== "clock") {
    for (const booking of day.bookings) {
      if (booking.asks[quantity] > 0) all.push({ item: undefined, booking, amount: booking.asks[quantity] });
    }
  }
  return all.sort((a, b) => b.amount - a.amount);
}

/** `in G major`, `on valves 12`, `on open valves`; nothing for what has no key. */
export function placed(placement: Placement): string {
  if (placement.combination === undefined) {
    const name = placementName(placement);
    return name === "" ? "" : `in ${name}`;
  }
  return placement.combination.name === "0" ? "on open valves" : `on ${placementName(placement)}`;
}

/** Whether the black keys of a place are called flats: as its key signature has them, without one as flats. */
export function prefersFlats(placement: Placement | undefined): boolean {
  return placement?.key === undefined || fifthsOf(placement.key) <= 0;
}

/** `“Thirds in motion” in G major` */
export function itemName(item: DayItem): string {
  const [first, ...more] = item.passes;
  const asked = item.assignment.exercise;
  // A change may have put another exercise in the place of the one the line names.
  const name =
    item.exercise.name === asked ? quoted(asked) : `${quoted(item.exercise.name)} (for ${quoted(asked)})`;
  if (first === undefined) return name;
  const place = placementName(first.placement);
  if (place === "") return name;
  const last = more[more.length - 1];
  if (last === undefined) return `${name} ${placed(first.placement)}`;
  return `${name} from ${place} to ${placementName(last.placement)}`;
}

export function contributionName(contribution: Contribution): string {
  return contribution.item === undefined ? quoted(contribution.booking.name) : itemName(contribution.item);
}

/** A line of the sum behind a figure. */
export function contributionLine(contribution: Contribution, quantity: Summed): string {
  const figure =
    quantity === "load" ? `${Math.round(contribution.amount)} points` : minutes(contribution.amount);
  return `${figure}  ${contributionName(contribution)}`;
}
