import { readSource } from "../../grammar/pieces";
import { type Checked, checkSources } from "../../server/workspace/check-sources";

/** Checks plan texts that are at hand, each under its path. */
export function checkTexts(texts: ReadonlyMap<string, string>): Checked {
  const sources = new Map(
    [...texts].map(([path, text]) => [path, { path, text, tree: readSource(text) }] as const),
  );
  return checkSources({
    asked: [...texts.keys()],
    sources,
    failures: new Map(),
    aliases: new Map(),
    known: new Set(),
  });
}
