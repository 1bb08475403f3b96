import type { TextEdit } from "vscode-languageserver-types";
import { printStatement } from "../../grammar/print";
import type { Block, Declaration } from "../../grammar/tree";
import { dateText } from "../plan/date";
import type { Finding } from "../rules/finding";
import type { Checked, CheckedFile } from "../workspace/check-sources";
import { lineEndOf } from "./line-end";
import { linesOf, rangeOf } from "./lines-of";
import { type BlockItem, chainAt, type Held } from "./tree-at";

/** What stands where the teacher's reason belongs. */
const REASON = "the reason";

/** The statements whose braces may hold a `let` line. */
const HOLDERS: ReadonlySet<string> = new Set([
  ...["assignment", "session", "short", "weeks"],
  ...["area", "studio", "exercise", "routine", "level", "student", "term"],
]);

type Holder = Extract<
  BlockItem | Declaration,
  { kind: "assignment" | "session" | "short" | "weeks" | Declaration["kind"] }
>;

/**
 * The edit that writes `let … stand` for a finding, in the braces of the narrowest statement around it that may
 * hold one. A finding of one single day is let stand on that day. Undefined where nothing may hold it.
 */
export function standEdit(checked: Checked, file: CheckedFile, finding: Finding): TextEdit | undefined {
  const { piece, span } = finding.place;
  const home = checked.homes.get(piece);
  if (home === undefined || home.file !== file) return undefined;
  const holder = chainAt(piece, span.start).flatMap(holderOf).at(-1);
  if (holder === undefined) return undefined;
  const line = letLine(finding);
  const { block } = holder;
  if (block === undefined) return insertion(file, home.start + holder.span.end, ` { ${line} }`);
  return inBlock(file, home.start, block, line);
}

function holderOf(held: Held): readonly (Holder & { readonly block: Block<unknown> | undefined })[] {
  if (held.as !== "statement" && held.as !== "declaration") return [];
  return isHolder(held.node) ? [held.node] : [];
}

function isHolder(
  node: BlockItem | Declaration,
): node is Holder & { readonly block: Block<unknown> | undefined } {
  return HOLDERS.has(node.kind);
}

function letLine({ code, dates }: Finding): string {
  const nowhere = { span: { start: 0, end: 0 } };
  const [date] = dates;
  return printStatement({
    ...nowhere,
    kind: "let",
    trivia: { before: [], after: undefined, blank: false },
    code: { ...nowhere, text: code },
    on: date === undefined || dates.length > 1 ? undefined : { ...nowhere, text: dateText(date) },
    because: { ...nowhere, text: REASON },
  });
}

/** A line more at the end of a block: on its one line, or on a line of its own. */
function inBlock(file: CheckedFile, start: number, block: Block<unknown>, line: string): TextEdit {
  const open = start + block.span.start;
  const close = start + block.span.end - 1;
  if (block.inline) {
    const inner = file.text.slice(open + 1, close);
    const end = open + 1 + inner.trimEnd().length;
    const text = inner.trim() === "" ? ` ${line}${inner === "" ? " " : ""}` : `  ${line}`;
    return insertion(file, end, text);
  }
  const lines = linesOf(file);
  const lineStart = lines.offset({ line: lines.position(close).line, column: 0 });
  const margin = file.text.slice(lineStart, close);
  // The brace may stand behind the last statement of its block.
  if (margin.trim() !== "") return insertion(file, close, ` ${line} `);
  return insertion(file, lineStart, `${margin}  ${line}${lineEndOf(file)}`);
}

function insertion(file: CheckedFile, offset: number, newText: string): TextEdit {
  return { range: rangeOf(file, offset, offset), newText };
}
