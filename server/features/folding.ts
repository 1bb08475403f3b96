import { type FoldingRange, FoldingRangeKind } from "vscode-languageserver-types";
import { Memory } from "../../grammar/memory";
import type { Piece } from "../../grammar/piece";
import { beginsComment } from "../../grammar/tokens";
import type { Checked, CheckedFile } from "../workspace/check-sources";
import { endOfLine } from "./line-end";
import { fileOf, linesOf } from "./lines-of";

/**
 * What can be folded away: everything between braces over several lines, runs of whole-line comments, and runs
 * of `use` lines. Folding is by whole lines, and the line of the closing brace stays to be seen.
 */
export function foldingRanges(checked: Checked, path: string): FoldingRange[] {
  const file = fileOf(checked, path);
  if (file === undefined) return [];
  const folds: FoldingRange[] = [...importRun(file)];
  for (const [i, piece] of file.tree.pieces.entries()) {
    const start = file.tree.starts[i] ?? 0;
    for (const { from, to, kind } of foldsOf(piece)) {
      const startLine = linesOf(file).position(start + from).line;
      const endLine = linesOf(file).position(start + to).line - (kind === "block" ? 1 : 0);
      if (endLine <= startLine) continue;
      folds.push(
        kind === "comment" ? { startLine, endLine, kind: FoldingRangeKind.Comment } : { startLine, endLine },
      );
    }
  }
  return onePerLine(folds);
}

/** The `use` lines at the top, from the first to the last with only comments between. */
function importRun(file: CheckedFile): readonly FoldingRange[] {
  const { pieces, starts } = file.tree;
  const runs: FoldingRange[] = [];
  let first: number | undefined;
  let last = 0;
  const close = (): void => {
    if (first !== undefined && last > first) {
      runs.push({ startLine: first, endLine: last, kind: FoldingRangeKind.Imports });
    }
    first = undefined;
  };
  for (const [i, { declaration }] of pieces.entries()) {
    if (declaration?.kind !== "use") {
      close();
      continue;
    }
    const { line } = linesOf(file).position((starts[i] ?? 0) + declaration.span.start);
    first ??= line;
    last = line;
  }
  close();
  return runs;
}

/** A stretch of a piece that can be folded; `to` is the closing brace, the last comment, or the end of what is open. */
interface Fold {
  readonly from: number;
  readonly to: number;
  readonly kind: "block" | "open block" | "comment";
}

const folds = new Memory<Piece, readonly Fold[]>();

function foldsOf(piece: Piece): readonly Fold[] {
  const known = folds.get(piece);
  if (known !== undefined) return known;
  const found = readFolds(piece.text);
  folds.set(piece, found);
  return found;
}

/** Read from the braces themselves, so that a block whose first line cannot be read folds like any other. */
function readFolds(text: string): readonly Fold[] {
  const found: Fold[] = [];
  const open: number[] = [];
  let run: { from: number; to: number } | undefined;
  /** Whether the line so far holds nothing but spaces. */
  let bare = true;
  const endRun = (): void => {
    if (run !== undefined) found.push({ ...run, kind: "comment" });
    run = undefined;
  };
  for (let at = 0; at < text.length; at++) {
    const sign = text.charAt(at);
    if (sign === "\n" || sign === "\r") {
      // A blank line ends a run of comments; the two halves of one line end are one.
      if (bare && run !== undefined && !(sign === "\n" && text.charAt(at - 1) === "\r")) endRun();
      bare = true;
    } else if (sign === "#" && beginsComment(text, at)) {
      if (bare) run = { from: run?.from ?? at, to: at };
      at = endOfLine(text, at) - 1;
      bare = false;
    } else if (sign.trim() !== "") {
      if (bare) endRun();
      bare = false;
      if (sign === "{") open.push(at);
      else if (sign === "}") {
        const from = open.pop();
        if (from !== undefined) found.push({ from, to: at, kind: "block" });
      }
    }
  }
  endRun();
  // What is still open while it is being typed ends with the piece.
  const end = text.trimEnd().length;
  for (const from of open) found.push({ from, to: end, kind: "open block" });
  return found;
}

/** Of several folds that begin on one line, the longest. */
function onePerLine(all: readonly FoldingRange[]): FoldingRange[] {
  const sorted = [...all].sort((a, b) => a.startLine - b.startLine || b.endLine - a.endLine);
  return sorted.filter((fold, i) => sorted[i - 1]?.startLine !== fold.startLine);
}
