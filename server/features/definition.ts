import type { Location, LocationLink, Position } from "vscode-languageserver-types";
import type { Checked } from "../workspace/check-sources";
import { fileOf, offsetOf, type Places, rangeOf, spanRange } from "./lines-of";
import { insideQuotes, nameAt, thingOf } from "./names";
import { usedFileAt } from "./used-files";

/** Where that is declared whose name stands at a position; for the path of a `use` line, the start of that file. */
export function definition(
  checked: Checked,
  path: string,
  position: Position,
  places: Places,
): LocationLink[] {
  const file = fileOf(checked, path);
  if (file === undefined) return [];
  const offset = offsetOf(file, position);
  const used = usedFileAt(checked, file, offset);
  if (used !== undefined) {
    if (used.target === undefined) return [];
    const top = rangeOf(used.target, 0, 0);
    return [
      {
        originSelectionRange: rangeOf(file, used.span.start, used.span.end),
        targetUri: places.uriOf(used.target.path),
        targetRange: top,
        targetSelectionRange: top,
      },
    ];
  }
  const name = nameAt(file, offset);
  const thing = name === undefined ? undefined : thingOf(name);
  const home = thing === undefined ? undefined : checked.homes.get(thing.piece);
  if (name === undefined || thing === undefined || home === undefined) return [];
  const inside = insideQuotes(thing.piece.text, thing.mention.span);
  return [
    {
      originSelectionRange: spanRange(file, name.start, insideQuotes(name.piece.text, name.mention.span)),
      targetUri: places.uriOf(home.file.path),
      targetRange: spanRange(home.file, home.start, thing.piece.declaration?.span ?? thing.mention.span),
      targetSelectionRange: spanRange(home.file, home.start, inside),
    },
  ];
}

/** The same for an editor that knows no links. */
export function locationsOf(links: readonly LocationLink[]): Location[] {
  return links.map(({ targetUri, targetSelectionRange }) => ({
    uri: targetUri,
    range: targetSelectionRange,
  }));
}
