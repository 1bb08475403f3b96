import type { TextEdit } from "vscode-languageserver-types";
import type { Block } from "../../grammar/tree";
import type { Finding } from "../rules/finding";
import type { Checked, CheckedFile } from "../workspace/check-sources";
import { linesOf, rangeOf } from "./lines-of";
import { type BlockItem, chainAt, type Held } from "./tree-at";

/**
 * The edit that takes away a `let` line which stands for nothing any more: its line, or on one line with others the
 * words and what parts them; with them the braces that hold nothing else. Undefined where it is no longer there.
 */
export function idleEdit(checked: Checked, file: CheckedFile, finding: Finding): TextEdit | undefined {
  const { piece, span } = finding.place;
  const home = checked.homes.get(piece);
  if (home === undefined || home.file !== file) return undefined;
  const chain = chainAt(piece, span.start);
  const at = chain.findIndex(({ as, node }) => as === "statement" && "kind" in node && node.kind === "let");
  const line = chain[at];
  const holder = chain[at - 1];
  if (line === undefined || holder === undefined || !isBlock(holder)) return undefined;
  const block = holder.node;
  const start = home.start + line.node.span.start;
  const end = home.start + line.node.span.end;
  if (block.inline) {
    const alone = block.items.length === 1 && block.closing.length === 0;
    const [from, to] = alone ? [home.start + block.span.start, home.start + block.span.end] : [start, end];
    return removal(file, afterWords(file.text, from), to);
  }
  const lines = linesOf(file);
  const { line: number } = lines.position(start);
  if (lines.lineText(number).trim() !== file.text.slice(start, end)) {
    return removal(file, afterWords(file.text, start), end);
  }
  return removal(
    file,
    lines.offset({ line: number, column: 0 }),
    lines.offset({ line: number + 1, column: 0 }),
  );
}

function isBlock(held: Held): held is Held & { readonly node: Block<BlockItem> } {
  return held.as === "block" && "items" in held.node;
}

/** The end of the words before an offset of their line. */
function afterWords(text: string, offset: number): number {
  let at = offset;
  while (at > 0 && (text.charCodeAt(at - 1) === 32 || text.charCodeAt(at - 1) === 9)) at--;
  return at;
}

function removal(file: CheckedFile, start: number, end: number): TextEdit {
  return { range: rangeOf(file, start, end), newText: "" };
}
