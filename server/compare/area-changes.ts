import type { AreaChange } from "./comparison";
import type { Practice } from "./practice";
import { sameFigure } from "./same-figure";

/** Areas that have another share of the clock time than before, the largest change first. */
export function areaChanges(before: Practice, after: Practice): readonly AreaChange[] {
  const sums = [sumOf(before), sumOf(after)] as const;
  const share = (clock: number, sum: number): number => (sum === 0 ? 0 : clock / sum);
  return [...new Set([...before.areas.keys(), ...after.areas.keys()])]
    .map((area) => {
      const [was, is] = [before.areas.get(area) ?? 0, after.areas.get(area) ?? 0];
      return {
        area,
        before: { clock: was, share: share(was, sums[0]) },
        after: { clock: is, share: share(is, sums[1]) },
      };
    })
    .filter((each) => !sameFigure(each.before.share, each.after.share))
    .sort((a, b) => shift(b) - shift(a) || (a.area < b.area ? -1 : 1));
}

/** Rounded, so that what the computer's arithmetic loses does not settle the order. */
function shift({ before, after }: AreaChange): number {
  return Math.round(Math.abs(after.share - before.share) * 1e6);
}

function sumOf({ areas }: Practice): number {
  let sum = 0;
  for (const clock of areas.values()) sum += clock;
  return sum;
}
