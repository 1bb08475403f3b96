import type { Position, Range, TextEdit } from "vscode-languageserver-types";
import { offsetOf, type Places, positionOf } from "../../../server/features/lines-of";
import type { Checked, CheckedFile } from "../../../server/workspace/check-sources";
import { drawn, fixture } from "../../fixture";
import { checkTexts } from "../check-texts";

/** A picture of a few files as an editor has them open, with ways to draw what a feature answers. */

/** Addresses that cannot be taken for paths. */
export const PLACES: Places = { uriOf: (path) => `plans:/${path}` };

export interface Opened {
  readonly checked: Checked;
  /** The file that holds the cursor, or else the first one. */
  readonly path: string;
  readonly position: Position;
  /** A file of the picture, by its path. */
  readonly file: (path: string) => CheckedFile;
}

/** Opens the files of a picture; `change` makes other line ends of them, or puts a mark in front. */
export function opened(picture: string, change: (text: string) => string = (text) => text): Opened {
  const files = fixture(picture);
  const texts = new Map(files.map(({ path, text }) => [path, change(text)]));
  const checked = checkTexts(texts);
  const file = (path: string): CheckedFile => {
    const found = checked.files.find((each) => each.path === path);
    if (found === undefined) throw new Error(`no file ${path} in the picture`);
    return found;
  };
  const holder = files.find(({ cursor }) => cursor !== undefined) ?? files[0];
  if (holder === undefined) throw new Error("a picture without a file");
  const before = holder.text.slice(0, holder.cursor ?? 0);
  const lines = before.split("\n");
  const position = { line: lines.length - 1, character: lines.at(-1)?.length ?? 0 };
  return { checked, path: holder.path, position, file };
}

/** Windows line ends and a byte order mark. */
export function asWindows(text: string): string {
  return `\ufeff${text.replaceAll("\n", "\r\n")}`;
}

/** The text of a file, its mark and `\r` aside, with ranges drawn into it. */
export function drawnRanges(file: CheckedFile, ranges: readonly Range[]): string {
  const spans = ranges.map(({ start, end }) => ({
    start: offsetOf(file, start),
    end: offsetOf(file, end),
  }));
  return drawn(file.text, spans).replaceAll("\r", "").replace("\ufeff", "");
}

/** The lines of a drawing that hold a mark, without the spaces around them. */
export function markedLines(drawing: string): string[] {
  return drawing
    .split("\n")
    .filter((line) => line.includes("⟦") || line.includes("⟧"))
    .map((line) => line.trim());
}

/** The files of which one of these places is, each with its marked lines. */
export function drawnLocations(
  { checked }: Pick<Opened, "checked">,
  locations: readonly { readonly uri: string; readonly range: Range }[],
): Readonly<Record<string, readonly string[]>> {
  const out: Record<string, readonly string[]> = {};
  for (const file of checked.files) {
    const ranges = locations.filter(({ uri }) => uri === PLACES.uriOf(file.path)).map(({ range }) => range);
    if (ranges.length > 0) out[file.path] = markedLines(drawnRanges(file, ranges));
  }
  return out;
}

/** A text after these edits. Throws where two of them overlap. */
export function edited(file: CheckedFile, edits: readonly TextEdit[]): string {
  const spans = edits
    .map(({ range, newText }) => ({
      start: offsetOf(file, range.start),
      end: offsetOf(file, range.end),
      newText,
    }))
    .sort((a, b) => b.start - a.start || b.end - a.end);
  let text = file.text;
  let last = Number.POSITIVE_INFINITY;
  for (const { start, end, newText } of spans) {
    if (end > last) throw new Error("two edits overlap");
    text = text.slice(0, start) + newText + text.slice(end);
    last = start;
  }
  return text;
}

/** Whether a range lies in the text of a file, its start not behind its end, as an editor would have it. */
export function liesInside(file: CheckedFile, { start, end }: Range): boolean {
  const [from, to] = [offsetOf(file, start), offsetOf(file, end)];
  const same = (a: Position, b: Position): boolean => a.line === b.line && a.character === b.character;
  return from <= to && same(positionOf(file, from), start) && same(positionOf(file, to), end);
}
