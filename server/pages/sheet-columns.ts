/** Which lines of a session stand side by side: those that take less of the page so than one under the other. */
import type { SheetItem, SheetLine } from "./sheet-day";
import { fullWidth, GUTTER, likelyHeight, lineHeight, type SheetFrame } from "./sheet-measure";

/** A line over the full width, and the same in a column so many millimetres wide where it may stand in one. */
export interface EitherLine {
  readonly full: SheetLine;
  readonly at?: (column: number) => SheetItem;
}

/** The part of the width that the left one of two columns may have: few, so that the page stays calm. */
const SHARES: readonly number[] = [1 / 2, 3 / 5, 2 / 5, 2 / 3, 1 / 3];

/** The lines in their order, two neighbours side by side wherever the session is lower for it. */
export function paired(lines: readonly EitherLine[], columns: SheetFrame | undefined): readonly SheetLine[] {
  if (columns === undefined) return lines.map(({ full }) => full);
  const high = (line: SheetLine): number => lineHeight(line, columns, likelyHeight);
  const width = fullWidth(columns.paper) - GUTTER;
  // best[n]: the least height of the first n lines, and the last of their rows.
  const best: { readonly height: number; readonly row: readonly SheetLine[] }[] = [{ height: 0, row: [] }];
  lines.forEach(({ full, at }, index) => {
    let found = { height: (best[index]?.height ?? 0) + high(full), row: [full] };
    const before = lines[index - 1]?.at;
    if (before !== undefined && at !== undefined) {
      const above = best[index - 1]?.height ?? 0;
      for (const share of SHARES) {
        const row = [before(share * width), at((1 - share) * width)];
        const height = above + Math.max(...row.map(high));
        // Halves are taken where another part saves next to nothing.
        if (height < found.height - WORTH) found = { height, row };
      }
    }
    best.push(found);
  });
  const chosen: SheetLine[] = [];
  for (let end = lines.length; end > 0; ) {
    const { row } = best[end] ?? { row: [] };
    chosen.unshift(...row);
    end -= Math.max(1, row.length);
  }
  return chosen;
}

/** What another way to stand must save, in millimetres. */
const WORTH = 0.5;
