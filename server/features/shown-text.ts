import type { MarkupContent } from "vscode-languageserver-types";
import { MarkupKind } from "vscode-languageserver-types";

/** A few lines to read, with a heading: what hovers and proposals are made of. */
export interface ShownText {
  readonly heading: string;
  readonly lines: readonly string[];
}

/** Lines of one section that are shown; a hover is glanced at and not studied. */
const MOST_LINES = 16;

/** Sections as an editor shows them: Markdown where it can, plain text otherwise. */
export function shownText(
  sections: readonly ShownText[],
  can: { readonly markdown: boolean },
): MarkupContent {
  if (!can.markdown) {
    const value = sections.map(({ heading, lines }) => [heading, ...some(lines)].join("\n")).join("\n\n");
    return { kind: MarkupKind.PlainText, value };
  }
  const value = sections
    .map(({ heading, lines }) => [`**${escaped(heading)}**`, ...some(lines).map(escaped)].join("  \n"))
    .join("\n\n---\n\n");
  return { kind: MarkupKind.Markdown, value };
}

function some(lines: readonly string[]): readonly string[] {
  return lines.length <= MOST_LINES
    ? lines
    : [...lines.slice(0, MOST_LINES), `… and ${lines.length - MOST_LINES} more`];
}

/** Text that means itself in Markdown: names and aims are the teacher's and may hold anything. */
function escaped(text: string): string {
  return text
    .replace(/[\r\n]+/g, " ")
    .replace(/[\\`*_{}[\]<>#|~&!]|^[-+]/g, "\\$&")
    .replace(/^(\d+)([.)])/, "$1\\$2");
}
