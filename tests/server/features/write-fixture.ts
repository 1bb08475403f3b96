import type { Position, Range, TextEdit } from "vscode-languageserver-types";
import { offsetOf, positionOf } from "../../../server/features/lines-of";
import type { Checked, CheckedFile } from "../../../server/workspace/check-sources";
import { type FixtureFile, fixture } from "../../fixture";
import { checkTexts } from "../check-texts";

/** A picture of one or several files, checked, with the cursor and the ranges drawn into it. */
export interface Drawn {
  readonly checked: Checked;
  readonly path: string;
  readonly file: CheckedFile;
  readonly position: Position;
  /** The ranges of the file with the cursor, or of the first one. */
  readonly ranges: readonly Range[];
}

/** Checks a picture; the file with the cursor (or else the one with ranges, or the first) is the one asked about. */
export function drawnPlan(picture: string, lineEnd = "\n"): Drawn {
  const files = fixture(picture).map((each) => withLineEnds(each, lineEnd));
  const checked = checkTexts(new Map(files.map(({ path, text }) => [path, text])));
  const asked =
    files.find((each) => each.cursor !== undefined) ??
    files.find((each) => each.ranges.length > 0) ??
    files[0];
  const file = checked.files.find((each) => each.path === asked?.path);
  if (asked === undefined || file === undefined) throw new Error("a picture without a file");
  return {
    checked,
    path: asked.path,
    file,
    position: positionOf(file, asked.cursor ?? 0),
    ranges: asked.ranges.map(({ start, end }) => ({
      start: positionOf(file, start),
      end: positionOf(file, end),
    })),
  };
}

function withLineEnds(file: FixtureFile, lineEnd: string): FixtureFile {
  if (lineEnd === "\n") return file;
  const moved = (offset: number): number =>
    offset + (lineEnd.length - 1) * (file.text.slice(0, offset).split("\n").length - 1);
  return {
    path: file.path,
    text: file.text.replaceAll("\n", lineEnd),
    cursor: file.cursor === undefined ? undefined : moved(file.cursor),
    ranges: file.ranges.map(({ start, end }) => ({ start: moved(start), end: moved(end) })),
  };
}

/** How the tests call a file outside. */
export const PLACES = { uriOf: (path: string): string => `file:///studio/${path}` };

/** The text of a file with edits made, as an editor makes them. */
export function edited(file: CheckedFile, edits: readonly TextEdit[]): string {
  return edits
    .map(({ range, newText }) => ({
      start: offsetOf(file, range.start),
      end: offsetOf(file, range.end),
      newText,
    }))
    .toSorted((a, b) => b.start - a.start)
    .reduce((text, { start, end, newText }) => text.slice(0, start) + newText + text.slice(end), file.text);
}

/** The text that stands in a range. */
export function textIn(file: CheckedFile, range: Range): string {
  return file.text.slice(offsetOf(file, range.start), offsetOf(file, range.end));
}
