import type { SymbolInformation } from "vscode-languageserver-types";
import type { Checked } from "../workspace/check-sources";
import { fileName } from "../workspace/paths";
import { THING_SYMBOLS } from "./document-symbols";
import { type Places, spanRange } from "./lines-of";
import { insideQuotes, namesIn, type Occurrence } from "./names";

/** More than this many are no help to anybody who looks for one. */
const MOST = 200;

/**
 * Whatever is declared in any file and whose name matches loosely: the letters of the query, in their order,
 * capitals and accents aside. Those that begin with it come first, then those in which a word does.
 */
export function workspaceSymbols(checked: Checked, query: string, places: Places): SymbolInformation[] {
  const wanted = plain(query).replaceAll(" ", "");
  const found: { readonly rank: number; readonly name: Occurrence }[] = [];
  for (const file of checked.files) {
    for (const name of namesIn(file, ({ declares }) => declares)) {
      const rank = rankOf(plain(name.mention.text), wanted);
      if (rank !== undefined) found.push({ rank, name });
    }
  }
  found.sort((a, b) => a.rank - b.rank);
  return found.slice(0, MOST).map(({ name: { file, piece, start, mention } }) => ({
    name: mention.text.trim() || mention.kind,
    kind: THING_SYMBOLS[mention.kind],
    containerName: fileName(file.path),
    location: {
      uri: places.uriOf(file.path),
      range: spanRange(file, start, insideQuotes(piece.text, mention.span)),
    },
  }));
}

/** Small letters without their accents. */
function plain(text: string): string {
  return text.normalize("NFD").replace(/\p{M}/gu, "").toLowerCase();
}

/** How well a name matches, 0 best; undefined where letters are missing. */
function rankOf(name: string, wanted: string): number | undefined {
  const joined = name.replaceAll(" ", "");
  if (joined.startsWith(wanted)) return 0;
  const words = name.split(" ");
  if (words.some((_, i) => words.slice(i).join("").startsWith(wanted))) return 1;
  if (joined.includes(wanted)) return 2;
  let at = 0;
  for (const letter of joined) if (wanted.startsWith(letter, at)) at += letter.length;
  return at >= wanted.length ? 3 : undefined;
}
