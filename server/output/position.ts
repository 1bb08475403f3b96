import { Memory } from "../../grammar/memory";
import type { Place } from "../plan/place";
import type { CheckedFile, PieceHomes } from "../workspace/check-sources";

/** A place as people count: lines and columns from 1. */
export interface Position {
  readonly line: number;
  readonly column: number;
}

export interface Shown {
  readonly file: CheckedFile;
  readonly from: Position;
  readonly to: Position;
  /** The first line of the place, without its end. */
  readonly lineText: () => string;
}

const BYTE_ORDER_MARK = "\ufeff";

/** Where a place stands in its file. */
export function shownPlace(place: Place, homes: PieceHomes): Shown | undefined {
  const home = homes.get(place.piece);
  if (home === undefined) return undefined;
  const { file, start } = home;
  const lines = lineStarts(file);
  const from = positionOf(file.text, lines, start + place.span.start);
  const to = positionOf(file.text, lines, start + place.span.end);
  return { file, from, to, lineText: () => textOfLine(file.text, lines, from.line) };
}

const knownLines = new Memory<CheckedFile, readonly number[]>();

function lineStarts(file: CheckedFile): readonly number[] {
  const known = knownLines.get(file);
  if (known !== undefined) return known;
  // What an editor does not show takes no column.
  const starts = [file.text.startsWith(BYTE_ORDER_MARK) ? 1 : 0];
  for (const match of file.text.matchAll(/\r\n|\r|\n/g)) starts.push(match.index + match[0].length);
  knownLines.set(file, starts);
  return starts;
}

function positionOf(text: string, starts: readonly number[], offset: number): Position {
  const at = Math.max(starts[0] ?? 0, Math.min(offset, text.length));
  let [low, high] = [0, starts.length - 1];
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((starts[middle] ?? 0) <= at) low = middle;
    else high = middle - 1;
  }
  return { line: low + 1, column: at - (starts[low] ?? 0) + 1 };
}

function textOfLine(text: string, starts: readonly number[], line: number): string {
  const from = starts[line - 1] ?? 0;
  return text.slice(from, starts[line] ?? text.length).replace(/[\r\n]+$/, "");
}
