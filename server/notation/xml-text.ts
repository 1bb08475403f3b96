/** Building XML text: escaping, elements, indentation. */

/** Signs that no XML 1.0 document may hold, even escaped. */
const FORBIDDEN = /[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\u{10000}-\u{10ffff}]/gu;

/** Text for the content of an element or for an attribute between double quotes. */
export function escaped(text: string): string {
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
  for (const [key, value] of Object.entries(attributes)) {
    if (value !== undefined) head += ` ${key}="${escaped(String(value))}"`;
  }
  if (typeof content === "string") {
    lines.push(`${head}>${content}</${name}>`);
    return;
  }
  const children = content.filter((child) => child !== undefined);
  if (children.length === 0) {
    lines.push(`${head}/>`);
    return;
  }
  lines.push(`${head}>`);
  for (const child of children) print(child, `${indent}  `, lines);
  lines.push(`${indent}</${name}>`);
}
