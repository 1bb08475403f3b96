import type { WeekTotals } from "./week";

/**
 * How much more a week plays than the week before, as a part of it (0.1 is a tenth more); undefined where nothing
 * fair can be said: either is no normal week, a holiday lies between, or nothing was played before.
 */
export function increaseOver(before: WeekTotals | undefined, week: WeekTotals): number | undefined {
  if (before === undefined || !week.normal || !before.normal || before.playing <= 0) return undefined;
  const adjoining = (week.days[0]?.date ?? 0) - (before.days[0]?.date ?? 0) === 7;
  return adjoining ? week.playing / before.playing - 1 : undefined;
}
