import type { Range, TextEdit } from "vscode-languageserver-types";
import { formatPieces } from "../../grammar/format";
import type { Checked, CheckedFile } from "../workspace/check-sources";
import { changedRuns } from "./changed-runs";
import { lineEndOf } from "./line-end";
import { fileOf, markLength, offsetOf, rangeOf } from "./lines-of";

/**
 * The canonical layout as changes of the lines that differ, so that marks, folds and the cursor stay where they
 * are. What an editor would like in the way of tabs is not asked: the language has one layout.
 */

/** Lays out a whole file. */
export function formatDocument(checked: Checked, path: string): TextEdit[] {
  const file = fileOf(checked, path);
  return file === undefined ? [] : edits(file, 0, file.text.length);
}

/** Lays out the declarations that a range touches, each as a whole. */
export function formatRange(checked: Checked, path: string, range: Range): TextEdit[] {
  const file = fileOf(checked, path);
  if (file === undefined) return [];
  return edits(file, offsetOf(file, range.start), offsetOf(file, range.end));
}

function edits(file: CheckedFile, from: number, to: number): TextEdit[] {
  const { pieces, starts } = file.tree;
  const lineEnd = lineEndOf(file);
  const laid = formatPieces(pieces);
  const found: TextEdit[] = [];
  for (const [i, piece] of pieces.entries()) {
    const begin = starts[i] ?? 0;
    const end = begin + piece.text.length;
    // A selection of whole lines ends where the next declaration begins, and does not mean that one.
    const touched = begin < to && from < end;
    const holdsCursor = from === to && begin <= from && (from < end || end === file.text.length);
    if (!touched && !holdsCursor) continue;
    // The byte order mark is no part of what an editor shows, and stays.
    const start = begin === 0 ? markLength(file) : begin;
    const wanted = (laid[i] ?? "").replaceAll("\n", lineEnd);
    for (const run of changedRuns(file.text.slice(start, end), wanted)) {
      found.push({ range: rangeOf(file, start + run.start, start + run.end), newText: run.text });
    }
  }
  return found;
}
