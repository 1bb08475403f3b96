import { Memory } from "../../grammar/memory";
import type { SourceTree } from "../../grammar/piece";
import { JointNames } from "../plan/names";
import type { Plan } from "../plan/plan";
import type { Surroundings } from "../rules/surroundings";

/**
 * What the files of a set say of each other: what any of them asks for, and whether all could be read. They cannot be
 * where more files are still to come.
 */
export function surroundingsOf(
  files: Iterable<{ readonly tree: SourceTree; readonly plan: Plan }>,
  moreToCome = false,
): Surroundings {
  const mentioned: Plan["mentioned"][] = [];
  let terms = false;
  let readable = !moreToCome;
  for (const { tree, plan } of files) {
    mentioned.push(plan.mentioned);
    terms ||= plan.own.terms.length > 0;
    readable &&= isReadable(tree);
  }
  // A studio in one file has nothing to join, and with every letter each of its names is looked up.
  const [first, ...others] = mentioned;
  const all = first !== undefined && others.length === 0 ? first : new JointNames(mentioned);
  // Where something could not be read, nobody knows what it asks for, and nothing is called unused.
  return { mentioned: all, hasTerm: terms && readable };
}

/**
 * What the rules of one plan can see of the surroundings, as a text to compare: which of its own exercises and
 * routines are asked for anywhere.
 */
export function seenBy(plan: Plan, { mentioned, hasTerm }: Surroundings): string {
  if (!hasTerm) return "";
  let seen = "";
  for (const { name } of plan.own.exercises) seen += mentioned.has(name) ? "1" : "0";
  for (const { name } of plan.own.routines) seen += mentioned.has(name) ? "1" : "0";
  return seen;
}

const knownReadable = new Memory<SourceTree, boolean>();

function isReadable(tree: SourceTree): boolean {
  const known = knownReadable.get(tree);
  if (known !== undefined) return known;
  const readable = tree.pieces.every((piece) => piece.problems.length === 0);
  knownReadable.set(tree, readable);
  return readable;
}
