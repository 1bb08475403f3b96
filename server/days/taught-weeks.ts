import { mondayOf, weekdayOf } from "../plan/date";
import type { Term } from "../plan/term";

export interface TaughtWeeks {
  /** Number of taught weeks. */
  readonly count: number;
  /** The taught week a day lies in, from 1; undefined in a week wholly closed or outside the term. */
  weekOf(day: number): number | undefined;
}

/** Whether the horn may be played that day: within the term, a day of practice, not closed. */
export function isPracticeDay(term: Term, day: number): boolean {
  if (day < term.dates.from || day > term.dates.to) return false;
  if ((term.practice & (1 << weekdayOf(day))) === 0) return false;
  for (const { how, from, to } of term.closures)
    if (how === "closed" && day >= from && day <= to) return false;
  return true;
}

/** Numbers the calendar weeks that hold at least one day of practice. */
export function taughtWeeks(term: Term): TaughtWeeks {
  const numbers = new Map<number, number>();
  for (let day = term.dates.from; day <= term.dates.to; day++) {
    const monday = mondayOf(day);
    if (!numbers.has(monday) && isPracticeDay(term, day)) numbers.set(monday, numbers.size + 1);
  }
  return { count: numbers.size, weekOf: (day) => numbers.get(mondayOf(day)) };
}
