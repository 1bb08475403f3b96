import type { InlayHint, Range } from "vscode-languageserver-types";
import { clockText } from "../output/numbers";
import { spokenDate } from "../plan/date";
import type { Checked, CheckedFile } from "../workspace/check-sources";
import { assignmentsIn } from "./assignments";
import { highestOf, type ItemOnDay, meetingsOf, sumLine } from "./hover-assignment";
import { fileOf, linesOf, offsetOf, positionOf } from "./lines-of";
import type { PieceAt } from "./tree-at";

/**
 * At the end of each assignment's line, what it comes to on its first day: minutes of clock time, and the
 * highest note in the key of that day. Lines outside of the range are not looked at.
 */
export function inlayHintsIn(checked: Checked, path: string, range: Range): InlayHint[] {
  const file = fileOf(checked, path);
  if (file === undefined) return [];
  const from = offsetOf(file, range.start);
  const to = offsetOf(file, range.end);
  const hints: InlayHint[] = [];
  for (const { piece, start } of piecesIn(file, from, to)) {
    for (const assignment of assignmentsIn(file.plan, piece)) {
      const { span } = assignment.place;
      if (start + span.end < from || start + span.start > to) continue;
      const [first] = meetingsOf(file.plan, assignment);
      if (first === undefined) continue;
      hints.push(hintAt(file, start + span.end, first));
    }
  }
  return hints;
}

function hintAt(file: CheckedFile, end: number, first: ItemOnDay): InlayHint {
  return {
    position: endOfLine(file, end),
    label: labelOf(first),
    paddingLeft: true,
    tooltip: `${spokenDate(first.day.date)}: ${sumLine(first.item)}`,
  };
}

/** `3:38, up to G5` */
function labelOf({ item }: ItemOnDay): string {
  const high = highestOf(item);
  const sign = high?.split(" ")[0];
  return sign === undefined ? clockText(item.clock) : `${clockText(item.clock)}, up to ${sign}`;
}

/** The pieces that reach into a stretch of the text. */
function piecesIn({ tree: { pieces, starts } }: CheckedFile, from: number, to: number): readonly PieceAt[] {
  return pieces.flatMap((piece, i) => {
    const start = starts[i] ?? 0;
    return start <= to && start + piece.text.length >= from ? [{ piece, start }] : [];
  });
}

function endOfLine(file: CheckedFile, offset: number): InlayHint["position"] {
  const { line } = positionOf(file, offset);
  const length = linesOf(file).lineText(line).trimEnd().length;
  return positionOf(file, linesOf(file).offset({ line, column: length }));
}
