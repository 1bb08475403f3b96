import { type DocumentHighlight, DocumentHighlightKind, type Position } from "vscode-languageserver-types";
import type { Checked } from "../workspace/check-sources";
import { fileOf, offsetOf, spanRange } from "./lines-of";
import { insideQuotes, nameAt, namesIn, occurrencesIn, thingOf } from "./names";

/**
 * The places in this file that name the same thing: written where it is declared, read where it is asked for.
 * A name that nobody bears is shown wherever it is written alike, so that a slip is seen in all its places.
 */
export function documentHighlights(checked: Checked, path: string, position: Position): DocumentHighlight[] {
  const file = fileOf(checked, path);
  const name = file === undefined ? undefined : nameAt(file, offsetOf(file, position));
  if (file === undefined || name === undefined) return [];
  const thing = thingOf(name);
  const { kind, text } = name.mention;
  const places =
    thing === undefined
      ? namesIn(file, (mention) => mention.kind === kind && mention.text === text)
      : occurrencesIn(file, thing);
  return places.map(({ piece, start, mention }) => ({
    range: spanRange(file, start, insideQuotes(piece.text, mention.span)),
    kind: mention.declares ? DocumentHighlightKind.Write : DocumentHighlightKind.Read,
  }));
}
