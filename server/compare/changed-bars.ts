import type { Score } from "../plan/score";
import type { BarChange, Both } from "./comparison";

/** Beyond so many pairs of bars the middle of two long pieces is told as one change instead of being searched. */
const MOST_PAIRS = 1_000_000;

/** Bars by their place in the row, from 0. */
type Run = Both<number[]>;

/**
 * Which bars of two rows of bars differ: the longest common part stays, the rest was put in or taken out. The
 * other way round it gives the same changes the other way round.
 */
export function changedBars(before: readonly string[], after: readonly string[]): readonly Run[] {
  // Where several common parts are equally long, both directions must choose the same.
  if (before.join("\n") <= after.join("\n")) return runs(before, after);
  return runs(after, before).map((run) => ({ before: run.after, after: run.before }));
}

function runs(before: readonly string[], after: readonly string[]): readonly Run[] {
  let head = 0;
  while (head < before.length && head < after.length && before[head] === after[head]) head++;
  let [endA, endB] = [before.length, after.length];
  while (endA > head && endB > head && before[endA - 1] === after[endB - 1]) {
    endA--;
    endB--;
  }
  const [m, n] = [endA - head, endB - head];
  if (m === 0 && n === 0) return [];
  if (m === 0 || n === 0 || m * n > MOST_PAIRS)
    return [{ before: range(head, endA), after: range(head, endB) }];
  // The classic table of common lengths, from the end.
  const width = n + 1;
  const common = new Uint32Array((m + 1) * width);
  for (let i = m - 1; i >= 0; i--) {
    for (let j = n - 1; j >= 0; j--) {
      common[i * width + j] =
        before[head + i] === after[head + j]
          ? common[(i + 1) * width + j + 1]! + 1
          : Math.max(common[(i + 1) * width + j]!, common[i * width + j + 1]!);
    }
  }
  const changes: Run[] = [];
  let open: Run | undefined;
  for (let [i, j] = [0, 0]; i < m || j < n; ) {
    if (i < m && j < n && before[head + i] === after[head + j]) {
      open = undefined;
      i++;
      j++;
      continue;
    }
    if (open === undefined) {
      open = { before: [], after: [] };
      changes.push(open);
    }
    if (j === n || (i < m && common[(i + 1) * width + j]! >= common[i * width + j + 1]!)) {
      open.before.push(head + i);
      i++;
    } else {
      open.after.push(head + j);
      j++;
    }
  }
  return changes;
}

/** The same changes with bars as musicians number them: a pick-up is 0, the first whole bar 1. */
export function asNumbered(changes: readonly Run[], before: Score, after: Score): readonly BarChange[] {
  const number = (score: Score) => {
    const first = score.bars[0]?.pickup === true ? 0 : 1;
    return (at: number): number => at + first;
  };
  return changes.map((each) => ({
    before: each.before.map(number(before)),
    after: each.after.map(number(after)),
  }));
}

function range(from: number, to: number): number[] {
  return Array.from({ length: to - from }, (_, i) => from + i);
}
