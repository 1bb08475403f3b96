import type { PlayerTerm } from "../days/day";
import { isPracticeDay } from "../days/taught-weeks";
import type { WeekTotals } from "../totals/week";
import { weekTotals } from "../totals/week";

const kept = new WeakMap<PlayerTerm["days"], readonly WeekTotals[]>();

/** The totals of a term's taught weeks; summed once for as long as its days stay the same. */
export function weeksOf(term: PlayerTerm): readonly WeekTotals[] {
  const known = kept.get(term.days);
  if (known !== undefined) return known;
  const fresh = weekTotals(term);
  kept.set(term.days, fresh);
  return fresh;
}

/**
 * Seconds of playing or upper a week may hold: as stated for the week, or else what its days of practice may hold
 * together. Undefined where neither is stated.
 */
export function weekAllowance(
  term: PlayerTerm,
  week: WeekTotals,
  quantity: "playing" | "upper",
): number | undefined {
  const { figures } = term.player;
  const stated = (quantity === "playing" ? figures.weekPlaying : figures.weekUpper)?.value;
  if (stated !== undefined) return stated;
  const daily = (quantity === "playing" ? figures.dayPlaying : figures.dayUpper)?.value;
  if (daily === undefined) return undefined;
  const days = week.days.filter((day) => isPracticeDay(term.term, day.date)).length;
  return daily * Math.min(days, figures.weekDays?.value ?? days);
}

/** `125 of 168 min`, whole minutes: a week is not planned by the second. */
export function weekFigure(seconds: number, allowed: number | undefined): string {
  const minutes = (value: number): string => String(Math.round(value / 60));
  return allowed === undefined ? `${minutes(seconds)} min` : `${minutes(seconds)} of ${minutes(allowed)} min`;
}
