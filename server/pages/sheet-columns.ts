/** Which lines of a session stand side by side: those that take less of the page so than one under the other. */
import type { DaySheetStyle, SheetItem, SheetLine } from "./sheet-day";
import { lineHeight } from "./sheet-measure";
import type { Picture } from "./sheet-picture";

/** A line over the full width, and the same in one of two columns where it may stand in one. */
export interface EitherLine {
  readonly full: SheetLine;
  readonly half?: SheetItem | undefined;
}

/** The height of a line of music in heights of its staff, and what fingerings under it add. */
const LINE_OF_MUSIC = 2.3;
const FINGERINGS = 0.5;

/** The lines in their order, two neighbours in half the width wherever the session is lower for it. */
export function paired(
  lines: readonly EitherLine[],
  { columns, staff, fingerings }: DaySheetStyle,
): readonly SheetLine[] {
  if (columns === undefined) return lines.map(({ full }) => full);
  const music = ({ lines: all }: Picture): number =>
    all * staff * (LINE_OF_MUSIC + (fingerings ? FINGERINGS : 0));
  const high = (line: SheetLine): number => lineHeight(line, columns, music);
  // best[n]: the least height of the first n lines, and whether the last of them stand side by side.
  const best: { readonly height: number; readonly pair: boolean }[] = [{ height: 0, pair: false }];
  lines.forEach(({ full, half }, index) => {
    const alone = (best[index]?.height ?? 0) + high(full);
    const before = index === 0 ? undefined : lines[index - 1]?.half;
    const together =
      before === undefined || half === undefined
        ? Number.POSITIVE_INFINITY
        : (best[index - 1]?.height ?? 0) + Math.max(high(before), high(half));
    best.push(together < alone ? { height: together, pair: true } : { height: alone, pair: false });
  });
  const chosen: SheetLine[] = [];
  for (let end = lines.length; end > 0; ) {
    const [before, last] = [lines[end - 2], lines[end - 1]];
    if (best[end]?.pair === true && before?.half !== undefined && last?.half !== undefined) {
      chosen.unshift(before.half, last.half);
      end -= 2;
    } else {
      if (last !== undefined) chosen.unshift(last.full);
      end--;
    }
  }
  return chosen;
}
