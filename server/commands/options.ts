import { parseArgs } from "node:util";
import { nearest } from "../plan/nearest";
import { Misuse } from "./world";

/** The options of a verb: those with a value and those without. */
export type OptionKinds = { readonly [name: string]: "value" | "switch" };

export interface Typed {
  readonly words: readonly string[];
  readonly values: ReadonlyMap<string, string>;
  readonly switches: ReadonlySet<string>;
}

/** Reads what was typed after a verb; anything unknown is misuse, with the nearest option there is. */
export function readOptions(verb: string, args: readonly string[], kinds: OptionKinds): Typed {
  const options = Object.fromEntries(
    Object.entries(kinds).map(([name, kind]) => [
      name,
      { type: kind === "value" ? ("string" as const) : ("boolean" as const) },
    ]),
  );
  const { tokens } = parseArgs({
    args: [...args],
    options,
    strict: false,
    allowPositionals: true,
    tokens: true,
  });
  const words: string[] = [];
  const values = new Map<string, string>();
  const switches = new Set<string>();
  for (const token of tokens) {
    if (token.kind === "positional") words.push(token.value);
    if (token.kind !== "option") continue;
    const kind = Object.hasOwn(kinds, token.name) ? kinds[token.name] : undefined;
    if (kind === undefined) {
      const near = nearest(token.name, Object.keys(kinds));
      throw new Misuse(
        `“leadpipe ${verb}” has no option “${token.rawName}”.${near === undefined ? "" : ` Did you mean “--${near}”?`}`,
      );
    }
    if (kind === "switch") {
      if (token.value !== undefined) throw new Misuse(`“${token.rawName}” takes no value.`);
      switches.add(token.name);
    } else {
      if (token.value === undefined || (!token.inlineValue && /^-./.test(token.value))) {
        throw new Misuse(`“${token.rawName}” needs a value after it.`);
      }
      values.set(token.name, token.value);
    }
  }
  return { words, values, switches };
}
