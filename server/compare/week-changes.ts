import type { WeekChange, WeekFigures } from "./comparison";
import type { Practice } from "./practice";
import { sameFigure } from "./same-figure";

/** The weeks of both terms side by side, by the number of the taught week; none where all are the same. */
export function weekChanges(before: Practice, after: Practice): readonly WeekChange[] {
  const weeks = Array.from({ length: Math.max(before.weeks.length, after.weeks.length) }, (_, i) => ({
    week: i + 1,
    before: before.weeks[i],
    after: after.weeks[i],
  }));
  return weeks.every((each) => same(each.before, each.after)) ? [] : weeks;
}

function same(a: WeekFigures | undefined, b: WeekFigures | undefined): boolean {
  if (a === undefined || b === undefined) return a === b;
  return sameFigure(a.clock, b.clock) && sameFigure(a.playing, b.playing) && sameFigure(a.upper, b.upper);
}
