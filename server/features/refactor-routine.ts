import type { TextEdit } from "vscode-languageserver-types";
import { printDays, printName, printTime } from "../../grammar/print-leaves";
import type { SessionBlock } from "../../grammar/tree";
import type { Plan } from "../plan/plan";
import type { Checked, CheckedFile } from "../workspace/check-sources";
import { lineEndOf } from "./line-end";
import { linesOf, rangeOf } from "./lines-of";
import { bringsNothingNew } from "./recheck";
import { chainAt, pieceAt } from "./tree-at";

/** A session that may be kept under a name of its own. */
export interface SessionAt {
  readonly session: SessionBlock;
  readonly block: NonNullable<SessionBlock["block"]>;
  /** Where the term's piece begins in the text. */
  readonly start: number;
}

/** The session at an offset, if it has work of its own and calls up no routine yet. */
export function sessionAt(file: CheckedFile, offset: number): SessionAt | undefined {
  const at = pieceAt(file.tree, offset);
  if (at === undefined || at.piece.problems.length > 0) return undefined;
  for (const { as, node } of chainAt(at.piece, offset - at.start).toReversed()) {
    if (as !== "statement" || node.kind !== "session") continue;
    const { block } = node;
    if (block === undefined || node.routine !== undefined) return undefined;
    return block.items.some((item) => item.kind === "assignment")
      ? { session: node, block, start: at.start }
      : undefined;
  }
  return undefined;
}

/** What the new routine is called, and the edits that make it and call it up. */
export interface Extraction {
  readonly name: string;
  readonly edits: readonly TextEdit[];
}

/**
 * Keeps a session as a routine above its term and calls it up in its place. Undefined where something new would be
 * found: walks and growth count where a routine is called up, and so stay as they are.
 */
export function routineEdits(
  checked: Checked,
  file: CheckedFile,
  { session, block, start }: SessionAt,
): Extraction | undefined {
  const name = freeName(checked, session.name?.text ?? "Practice");
  const end = lineEndOf(file);
  const minutes = session.minutes === undefined ? "" : ` ${printTime(session.minutes)}`;
  const body = file.text.slice(start + block.span.start, start + block.span.end);
  const margin = indentOf(file, start + session.span.start);
  const routine = `routine ${printName({ text: name })}${minutes} ${outdented(body, margin)}${end}${end}`;
  const called = session.name === undefined ? "" : ` ${printName(session.name)}`;
  const edits: TextEdit[] = [
    { range: rangeOf(file, start, start), newText: routine },
    {
      range: rangeOf(file, start + session.span.start, start + block.span.end),
      newText: `${printDays(session.days)}${called} routine ${printName({ text: name })}`,
    },
  ];
  const kept = { concerns: () => true, means: (_: Plan, after: Plan) => after.routines.has(name) };
  return bringsNothingNew(checked, file, edits, kept) ? { name, edits } : undefined;
}

/** The session's own name, or with a number behind it where a routine has that already. */
function freeName(checked: Checked, wanted: string): string {
  const taken = new Set(checked.files.flatMap(({ plan }) => [...plan.routines.keys()]));
  let name = wanted;
  for (let n = 2; taken.has(name); n++) name = `${wanted} ${n}`;
  return name;
}

/** The text of the margin of the line that holds an offset. */
function indentOf(file: CheckedFile, offset: number): string {
  const lines = linesOf(file);
  return /^[ \t]*/.exec(lines.lineText(lines.position(offset).line))?.[0] ?? "";
}

/** A block moved to the margin. */
function outdented(text: string, margin: string): string {
  return margin === "" ? text : text.replace(new RegExp(`(\\r\\n|\\n|\\r)${margin}`, "g"), "$1");
}
