import type { Plan } from "../plan/plan";
import type { Term } from "../plan/term";
import { namesIn, namesInRoutine } from "../plan/term-names";

/** The parts of a plan that the days of its terms are made from. */
export type DaysPlan = Pick<Plan, "settings" | "exercises" | "routines" | "records">;

/**
 * Everything that the days of a term hang on beside the term itself and the player. All of it keeps its identity
 * while its text does: two plans whose grounds are the same, each for each, unroll the term alike.
 */
export function termGround(plan: DaysPlan, term: Term): readonly unknown[] {
  const ground: unknown[] = [];
  walk(plan, term, (each) => ground.push(each) > 0);
  return ground;
}

/** Whether a ground is still what it would be in this plan; asked with every letter that is typed. */
export function groundHolds(ground: readonly unknown[], plan: DaysPlan, term: Term): boolean {
  let at = 0;
  return walk(plan, term, (each) => ground[at++] === each) && at === ground.length;
}

/** Whether two lists hold the same, each for each. */
export function sameGround(a: readonly unknown[], b: readonly unknown[]): boolean {
  return a.length === b.length && a.every((each, i) => each === b[i]);
}

/** Hands out one part of a ground after the other until one is not welcome; whether all were. */
function walk(plan: DaysPlan, term: Term, welcome: (part: unknown) => boolean): boolean {
  const { settings, exercises, routines, records } = plan;
  if (!welcome(settings) || !welcome(records.length)) return false;
  for (const record of records) if (!welcome(record)) return false;
  const names = namesIn(term);
  for (const name of names.played) if (!welcome(exercises.get(name))) return false;
  for (const name of names.routines) {
    const routine = routines.get(name);
    if (!welcome(routine)) return false;
    if (routine === undefined) continue;
    for (const each of namesInRoutine(routine)) if (!welcome(exercises.get(each))) return false;
  }
  return true;
}
