/** Building XML text: escaping, elements, indentation. */

/** Signs that no XML 1.0 document may hold, even escaped. */
const FORBIDDEN = /[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\u{10000}-\u{10ffff}]/gu;

/** Whether there is anything to escape or leave out; mostly there is not. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for.
const SPECIAL = /[&<>"\u0000-\u0008\u000b\u000c\u000e-\u001f\ud800-\udfff\ufffe\uffff]/;

/** Text for the content of an element or for an attribute between double quotes. */
export function escaped(text: string): string {
  if (!SPECIAL.test(text)) return text;
  return text
    .replace(FORBIDDEN, "")
    .replaceAll("&", "&amp;")
    .replaceAll("<", "&lt;")
    .replaceAll(">", "&gt;")
    .replaceAll('"', "&quot;");
}

export type Attributes = Readonly<Record<string, string | number | undefined>>;

/** One element, or text already escaped. */
export type Node = Element | undefined;

export interface Element {
  readonly name: string;
  readonly attributes: Attributes;
  readonly content: string | readonly Node[];
}

/** An element with children; those undefined are left out. */
export function element(name: string, attributes: Attributes, ...children: readonly Node[]): Element {
  return { name, attributes, content: children };
}

/** An element that holds text, escaped here. */
export function textElement(name: string, text: string | number, attributes: Attributes = {}): Element {
  return { name, attributes, content: escaped(String(text)) };
}

/** An element as text, each child on a line of its own. */
export function printed(root: Element): string {
  const lines: string[] = [];
  print(root, "", lines);
  return `${lines.join("\n")}\n`;
}

function print({ name, attributes, content }: Element, indent: string, lines: string[]): void {
  let head = `${indent}<${name}`;
  for (const key in attributes) {
    const value = attributes[key];
    if (value !== undefined) head += ` ${key}="${typeof value === "number" ? value : escaped(value)}"`;
  }
  if (typeof content === "string") {
    lines.push(`${head}>${content}</${name}>`);
    return;
  }
  if (content.every((child) => child === undefined)) {
    lines.push(`${head}/>`);
    return;
  }
  lines.push(`${head}>`);
  const inner = `${indent}  `;
  for (const child of content) if (child !== undefined) print(child, inner, lines);
  lines.push(`${indent}</${name}>`);
}
