import type { TextEdit } from "vscode-languageserver-types";
import type { Piece } from "../../grammar/piece";
import { readSource } from "../../grammar/pieces";
import { buildPlan, type Plan } from "../plan/plan";
import { checkPlan } from "../rules/check";
import type { Finding } from "../rules/finding";
import type { Ground } from "../rules/ground";
import type { Checked, CheckedFile } from "../workspace/check-sources";
import { offsetOf } from "./lines-of";

/** The text of a file with edits made that do not overlap. */
function editedText(file: CheckedFile, edits: readonly TextEdit[]): string {
  return edits
    .map(({ range, newText }) => ({
      start: offsetOf(file, range.start),
      end: offsetOf(file, range.end),
      newText,
    }))
    .toSorted((a, b) => b.start - a.start)
    .reduce((text, { start, end, newText }) => text.slice(0, start) + newText + text.slice(end), file.text);
}

/** What must hold of a file's plan before and after edits, beside that nothing new is found. */
export interface Kept {
  /** Whether the edits can matter to a file that uses the edited one. */
  readonly concerns: (plan: Plan) => boolean;
  /** Whether a plan still means what it should; called for the edited file and for every one they matter to. */
  readonly means: (before: Plan, after: Plan) => boolean;
}

/**
 * Whether edits bring nothing new: everything in the file and in the files that use it is read and checked again on
 * a copy. False where something could not be read, a finding is new or a meaning is not kept.
 */
export function bringsNothingNew(
  checked: Checked,
  file: CheckedFile,
  edits: readonly TextEdit[],
  { concerns, means }: Kept,
): boolean {
  const { pieces } = readSource(editedText(file, edits), file.tree);
  const known = new Set(file.tree.pieces);
  const problems = (all: readonly Piece[]): number =>
    all.reduce((sum, piece) => sum + piece.problems.length, 0);
  if (problems(pieces) > problems(file.tree.pieces) || pieces.every((piece) => known.has(piece)))
    return false;
  const holds = (before: CheckedFile, ground: Ground): boolean => {
    const after = planned(ground);
    return (
      means(before.plan, after) &&
      !bringsNew(found(before.plan, before.ground, before.plan), found(after, ground, after))
    );
  };
  if (!holds(file, { ...file.ground, own: pieces })) return false;
  return checked.files.every((other) => {
    if (other === file || !other.ground.used.includes(file.tree.pieces) || !concerns(other.plan)) return true;
    const used = other.ground.used.map((each) => (each === file.tree.pieces ? pieces : each));
    return holds(other, { ...other.ground, used });
  });
}

function planned({ own, used, records }: Ground): Plan {
  return buildPlan(own, used, records);
}

function found(plan: Plan, { around }: Ground, asks: Plan): readonly Finding[] {
  return checkPlan(plan, { ...around, mentioned: new Set([...around.mentioned, ...mentions(asks)]) });
}

/** The exercises and routines a plan asks for. */
function* mentions(plan: Plan): Generator<string> {
  yield* plan.mentioned;
  for (const term of plan.own.terms) {
    for (const { sessions } of term.weeks) {
      for (const { routine } of sessions) if (routine !== undefined) yield routine.text;
    }
  }
}

/** Whether something is found that was not there before, wherever it stands now. */
function bringsNew(before: readonly Finding[], after: readonly Finding[]): boolean {
  const known = new Map<string, number>();
  for (const finding of before) known.set(nameOf(finding), (known.get(nameOf(finding)) ?? 0) + 1);
  return after.some((finding) => {
    const left = (known.get(nameOf(finding)) ?? 0) - 1;
    known.set(nameOf(finding), left);
    return left < 0;
  });
}

function nameOf({ code, message, standing }: Finding): string {
  return `${code} ${standing === undefined ? "" : "stands "}${message}`;
}
