import type { Position, SelectionRange } from "vscode-languageserver-types";
import type { Span } from "../../grammar/span";
import type { Checked, CheckedFile } from "../workspace/check-sources";
import { fileOf, linesOf, markLength, offsetOf, rangeOf } from "./lines-of";
import { insideQuotes } from "./names";
import { chainAt, pieceAt } from "./tree-at";

/**
 * What a selection grows to, step by step: the word, the name or value, the clause, the statement, the block,
 * the declaration, the declaration with the comments above it, the file. One answer for each position.
 */
export function selectionRanges(
  checked: Checked,
  path: string,
  positions: readonly Position[],
): SelectionRange[] {
  const file = fileOf(checked, path);
  return positions.map((position) =>
    file === undefined ? { range: { start: position, end: position } } : grown(file, position),
  );
}

function grown(file: CheckedFile, position: Position): SelectionRange {
  const offset = offsetOf(file, position);
  const whole = { start: markLength(file), end: file.text.length };
  const steps: Span[] = [whole];
  const at = pieceAt(file.tree, offset);
  if (at !== undefined) {
    const { piece, start } = at;
    const moved = (span: Span): Span => ({ start: start + span.start, end: start + span.end });
    steps.push({ start: Math.max(start, whole.start), end: start + piece.text.trimEnd().length });
    for (const { as, node } of chainAt(piece, offset - start)) {
      steps.push(moved(node.span));
      if (as === "leaf" && /^["“”„«]/.test(piece.text.slice(node.span.start, node.span.start + 1))) {
        steps.push(moved(insideQuotes(piece.text, node.span)));
      }
    }
  }
  steps.push(wordAt(file, offset));
  let selection: SelectionRange | undefined;
  let outer: Span | undefined;
  for (const step of steps) {
    // Each step lies inside the one before and holds the position; what says nothing new is left out.
    if (step.start > offset || step.end < offset || step.end === step.start) continue;
    if (outer !== undefined) {
      if (step.start < outer.start || step.end > outer.end) continue;
      if (step.start === outer.start && step.end === outer.end) continue;
    }
    const range = rangeOf(file, step.start, step.end);
    selection = selection === undefined ? { range } : { range, parent: selection };
    outer = step;
  }
  return selection ?? { range: rangeOf(file, offset, offset) };
}

/** A run of letters and figures, or a note with its accidental. */
const WORDS = /[A-G][#♯♭]{1,2}\d*|[\p{L}\p{M}\p{N}]+/gu;

function wordAt(file: CheckedFile, offset: number): Span {
  const { line } = linesOf(file).position(offset);
  const start = linesOf(file).offset({ line, column: 0 });
  for (const { index, 0: word } of linesOf(file).lineText(line).matchAll(WORDS)) {
    const span = { start: start + index, end: start + index + word.length };
    if (span.start <= offset && offset <= span.end) return span;
  }
  return { start: offset, end: offset };
}
