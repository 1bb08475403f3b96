import type { Location, Position, Range } from "vscode-languageserver-types";
import { LineIndex } from "../../grammar/line-index";
import { Memory } from "../../grammar/memory";
import type { SourceTree } from "../../grammar/piece";
import type { Span } from "../../grammar/span";
import type { Place } from "../plan/place";
import type { Checked, CheckedFile, PieceHomes } from "../workspace/check-sources";

/**
 * Offsets in the text of a checked file as an editor counts them, and back. An editor shows no byte order
 * mark, so that one takes no column.
 */

/** How the paths of this house are called outside of it. */
export interface Places {
  /** The address of a file, as the protocol writes it. */
  uriOf(path: string): string;
}

/** Where the piece of a place stands; the only thing that features ask of `homes`. */
export type Homes = Pick<PieceHomes, "get">;

/** The sign that some programs put before a text; no editor shows it. */
export const BYTE_ORDER_MARK = 0xfeff;

/** By the tree, which stays the same object as long as the text does, however often the file is checked. */
const indexes = new Memory<SourceTree, LineIndex>();

/** The lines of a file, looked up once for as long as its text stays the same. */
export function linesOf({ tree, text }: Pick<CheckedFile, "tree" | "text">): LineIndex {
  const known = indexes.get(tree);
  if (known !== undefined) return known;
  const index = new LineIndex(text, tree);
  indexes.set(tree, index);
  return index;
}

/** The position of an offset in the text of a file; offsets outside of it are moved to its ends. */
export function positionOf(file: CheckedFile, offset: number): Position {
  const { line, column } = linesOf(file).position(offset);
  return { line, character: line === 0 ? Math.max(0, column - markLength(file)) : column };
}

/** The range between two offsets in the text of a file. */
export function rangeOf(file: CheckedFile, start: number, end: number): Range {
  return { start: positionOf(file, start), end: positionOf(file, end) };
}

/** The offset that a position means; one beyond the end of its line, or of the text, is moved to that end. */
export function offsetOf(file: CheckedFile, { line, character }: Position): number {
  const column = line === 0 ? Math.max(0, character) + markLength(file) : character;
  return linesOf(file).offset({ line, column });
}

/** The file of this path, if it was checked. */
export function fileOf(checked: Checked, path: string): CheckedFile | undefined {
  return checked.files.find((file) => file.path === path);
}

/** Where a place stands, as the protocol says it; undefined where its piece is in no file any more. */
export function locationOf(homes: Homes, place: Place, places: Places): Location | undefined {
  const home = homes.get(place.piece);
  if (home === undefined) return undefined;
  return { uri: places.uriOf(home.file.path), range: spanRange(home.file, home.start, place.span) };
}

/** The range of a span that is counted from the start of its piece. */
export function spanRange(file: CheckedFile, pieceStart: number, span: Span): Range {
  return rangeOf(file, pieceStart + span.start, pieceStart + span.end);
}

/** How many signs at the start of a text no editor shows. */
export function markLength(file: CheckedFile): number {
  return file.text.charCodeAt(0) === BYTE_ORDER_MARK ? 1 : 0;
}
