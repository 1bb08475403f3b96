import { escaped } from "../notation/xml-text";

/** Text that is HTML (or SVG inside it) already: everything else is escaped on its way in. */
export class Markup {
  constructor(readonly text: string) {}
}

type Part = string | number | Markup | undefined | readonly Part[];

/**
 * HTML from a template. What stands in braces is text and is escaped, in content as in attributes between double
 * quotes, unless it is markup itself; lists are joined, and undefined is nothing.
 */
export function html(strings: TemplateStringsArray, ...parts: readonly Part[]): Markup {
  let text = strings[0] ?? "";
  for (const [i, part] of parts.entries()) text += written(part) + (strings[i + 1] ?? "");
  return new Markup(text);
}

function written(part: Part): string {
  if (part === undefined) return "";
  if (part instanceof Markup) return part.text;
  if (typeof part === "string" || typeof part === "number") return escaped(String(part));
  return part.map(written).join("");
}
