import { Memory } from "../../grammar/memory";
import type { PlayerTerm } from "../days/day";
import type { WeekTotals } from "../totals/week";
import { weekTotals } from "../totals/week";

export { weekAllowance } from "../totals/week-allowance";

const kept = new Memory<PlayerTerm["days"], readonly WeekTotals[]>();

/** The totals of a term's taught weeks; summed once for as long as its days stay the same. */
export function weeksOf(term: PlayerTerm): readonly WeekTotals[] {
  const known = kept.get(term.days);
  if (known !== undefined) return known;
  const fresh = weekTotals(term);
  kept.set(term.days, fresh);
  return fresh;
}

/** `125 of 168 min`, whole minutes: a week is not planned by the second. */
export function weekFigure(seconds: number, allowed: number | undefined): string {
  const minutes = (value: number): string => String(Math.round(value / 60));
  return allowed === undefined ? `${minutes(seconds)} min` : `${minutes(seconds)} of ${minutes(allowed)} min`;
}
