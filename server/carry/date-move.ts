import { isPracticeDay, taughtWeeks } from "../days/taught-weeks";
import { mondayOf, weekdayOf } from "../plan/date";
import type { Term } from "../plan/term";

/**
 * The day of the new calendar that stands for a day of the old: the same weekday of the same taught week. Undefined
 * where the old day lies in no taught week, or the new calendar has no such day (or no practice on it).
 */
export type DateMove = (day: number, which: "any day" | "practice day") => number | undefined;

/** How days move from one term's calendar into another's. */
export function dateMove(from: Term, to: Term): DateMove {
  const [old, now] = [taughtWeeks(from), taughtWeeks(to)];
  const mondays = new Map<number, number>();
  for (let day = to.dates.from; day <= to.dates.to; day++) {
    const week = now.weekOf(day);
    if (week !== undefined) mondays.set(week, mondayOf(day));
  }
  return (day, which) => {
    const week = old.weekOf(day);
    const monday = week === undefined ? undefined : mondays.get(week);
    if (monday === undefined) return undefined;
    const moved = monday + weekdayOf(day);
    if (moved < to.dates.from || moved > to.dates.to) return undefined;
    return which === "practice day" && !isPracticeDay(to, moved) ? undefined : moved;
  };
}
