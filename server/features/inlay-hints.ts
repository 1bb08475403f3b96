import type { InlayHint, Range } from "vscode-languageserver-types";
import type { Piece } from "../../grammar/piece";
import { clockText } from "../output/numbers";
import { spokenDate } from "../plan/date";
import type { Checked, CheckedFile } from "../workspace/check-sources";
import { assignmentsOf } from "./assignments";
import { highestOf, type ItemOnDay, meetingsOf, sumLine } from "./hover-assignment";
import { fileOf, linesOf, offsetOf, positionOf } from "./lines-of";

/**
 * At the end of each assignment's line, what it comes to on its first day: minutes of clock time, and the
 * highest note in the key of that day. Lines outside of the range are not looked at.
 */
export function inlayHintsIn(checked: Checked, path: string, range: Range): InlayHint[] {
  const file = fileOf(checked, path);
  if (file === undefined) return [];
  const from = offsetOf(file, range.start);
  const to = offsetOf(file, range.end);
  const starts = startsIn(file, from, to);
  const hints: InlayHint[] = [];
  for (const assignment of assignmentsOf(file.plan)) {
    const start = starts.get(assignment.place.piece);
    if (start === undefined) continue;
    const { span } = assignment.place;
    if (start + span.end < from || start + span.start > to) continue;
    const [first] = meetingsOf(file.plan, assignment);
    if (first === undefined) continue;
    hints.push({
      position: endOfLine(file, start + span.end),
      label: labelOf(first),
      paddingLeft: true,
      tooltip: `${spokenDate(first.day.date)}: ${sumLine(first.item)}`,
    });
  }
  return hints;
}

/** `3:38, up to G5` */
function labelOf({ item }: ItemOnDay): string {
  const high = highestOf(item);
  const sign = high?.split(" ")[0];
  return sign === undefined ? clockText(item.clock) : `${clockText(item.clock)}, up to ${sign}`;
}

/** Where the pieces begin that reach into a stretch of the text. */
function startsIn(file: CheckedFile, from: number, to: number): ReadonlyMap<Piece, number> {
  const { pieces, starts } = file.tree;
  const inside = new Map<Piece, number>();
  for (const [i, piece] of pieces.entries()) {
    const start = starts[i] ?? 0;
    if (start <= to && start + piece.text.length >= from) inside.set(piece, start);
  }
  return inside;
}

function endOfLine(file: CheckedFile, offset: number): InlayHint["position"] {
  const { line } = positionOf(file, offset);
  const length = linesOf(file).lineText(line).trimEnd().length;
  return positionOf(file, linesOf(file).offset({ line, column: length }));
}
