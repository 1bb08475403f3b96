/** Which lines of a text must change so that it becomes another one. */

/** A stretch of the old text, in whole lines, and what takes its place. */
export interface ChangedRun {
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

/** Beyond this many changed lines it is not worth looking for those in between that stay. */
const MOST_CHANGES = 400;

/**
 * The runs of lines that differ, from the top down; lines that stay lie between them. Found by the greedy
 * algorithm of Myers, “An O(ND) difference algorithm and its variations” (1986), whose work grows with the
 * number of lines that differ.
 */
export function changedRuns(before: string, after: string): readonly ChangedRun[] {
  if (before === after) return [];
  const old = linesWithEnds(before);
  const fresh = linesWithEnds(after);
  let top = 0;
  while (top < old.length && top < fresh.length && old[top] === fresh[top]) top++;
  let oldEnd = old.length;
  let freshEnd = fresh.length;
  while (oldEnd > top && freshEnd > top && old[oldEnd - 1] === fresh[freshEnd - 1]) {
    oldEnd--;
    freshEnd--;
  }
  const kept = keptLines(old.slice(top, oldEnd), fresh.slice(top, freshEnd));
  const runs: ChangedRun[] = [];
  let at = lengthOf(old, 0, top);
  let from = top;
  let freshFrom = top;
  for (const [o, f] of [...kept.map(([a, b]) => [a + top, b + top] as const), [oldEnd, freshEnd] as const]) {
    const end = at + lengthOf(old, from, o);
    if (o > from || f > freshFrom) runs.push({ start: at, end, text: fresh.slice(freshFrom, f).join("") });
    at = end + (old[o]?.length ?? 0);
    from = o + 1;
    freshFrom = f + 1;
  }
  return runs;
}

/** Lines with what ends them. */
function linesWithEnds(text: string): readonly string[] {
  return text.match(/[^\r\n]*(?:\r\n|\r|\n)|[^\r\n]+$/g) ?? [];
}

function lengthOf(lines: readonly string[], from: number, to: number): number {
  let length = 0;
  for (let i = from; i < to; i++) length += lines[i]?.length ?? 0;
  return length;
}

/** Pairs of equal lines that stay, as many as can be, in order; none where too many lines differ. */
function keptLines(old: readonly string[], fresh: readonly string[]): readonly (readonly [number, number])[] {
  const most = Math.min(old.length + fresh.length, MOST_CHANGES);
  /** How far along the old lines each diagonal has come, for each number of changes. */
  const trail: Int32Array[] = [];
  const reach = new Int32Array(2 * most + 3);
  for (let changes = 0; changes <= most; changes++) {
    for (let diagonal = -changes; diagonal <= changes; diagonal += 2) {
      const below = reach[most + diagonal] ?? 0;
      const above = reach[most + diagonal + 2] ?? 0;
      const down = diagonal === -changes || (diagonal !== changes && below < above);
      let x = down ? above : below + 1;
      let y = x - diagonal;
      while (x < old.length && y < fresh.length && old[x] === fresh[y]) {
        x++;
        y++;
      }
      reach[most + 1 + diagonal] = x;
      if (x >= old.length && y >= fresh.length) {
        trail.push(reach.slice());
        return walkBack(trail, most, changes, old.length, fresh.length);
      }
    }
    trail.push(reach.slice());
  }
  return [];
}

function walkBack(
  trail: readonly Int32Array[],
  most: number,
  changes: number,
  oldLength: number,
  freshLength: number,
): readonly (readonly [number, number])[] {
  const kept: [number, number][] = [];
  let x = oldLength;
  let y = freshLength;
  for (let d = changes; d > 0; d--) {
    const before = trail[d - 1]!;
    const diagonal = x - y;
    const below = before[most + diagonal] ?? 0;
    const above = before[most + diagonal + 2] ?? 0;
    const down = diagonal === -d || (diagonal !== d && below < above);
    const fromX = down ? above : below;
    const fromY = down ? fromX - (diagonal + 1) : fromX - (diagonal - 1);
    const startX = down ? fromX : fromX + 1;
    while (x > startX) kept.push([--x, --y]);
    x = fromX;
    y = fromY;
  }
  while (x > 0 && y > 0) kept.push([--x, --y]);
  return kept.reverse();
}
