import type { Location, Position } from "vscode-languageserver-types";
import type { Checked } from "../workspace/check-sources";
import { fileOf, offsetOf, type Places, rangeOf, spanRange } from "./lines-of";
import { insideQuotes, nameAt, occurrencesOf, thingOf } from "./names";
import { usedFileAt, usedFiles } from "./used-files";

/**
 * Everywhere that is named whose name stands at a position, in all files; for the path of a `use` line, every
 * line that brings in that file.
 */
export function references(
  checked: Checked,
  path: string,
  position: Position,
  includeDeclaration: boolean,
  places: Places,
): Location[] {
  const file = fileOf(checked, path);
  if (file === undefined) return [];
  const offset = offsetOf(file, position);
  const target = usedFileAt(checked, file, offset)?.target;
  if (target !== undefined) {
    return checked.files.flatMap((each) =>
      usedFiles(checked, each)
        .filter((used) => used.target === target)
        .map(({ span }) => ({ uri: places.uriOf(each.path), range: rangeOf(each, span.start, span.end) })),
    );
  }
  const name = nameAt(file, offset);
  const thing = name === undefined ? undefined : thingOf(name);
  if (thing === undefined) return [];
  return occurrencesOf(checked, thing)
    .filter(({ mention }) => includeDeclaration || !mention.declares)
    .map(({ file: each, piece, start, mention }) => ({
      uri: places.uriOf(each.path),
      range: spanRange(each, start, insideQuotes(piece.text, mention.span)),
    }));
}
