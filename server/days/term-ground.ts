import type { Exercise } from "../plan/exercise";
import type { Plan } from "../plan/plan";
import type { Routine, SessionContent, Term } from "../plan/term";

/** The parts of a plan that the days of its terms are made from. */
export type DaysPlan = Pick<Plan, "settings" | "exercises" | "routines" | "records">;

/**
 * Everything that the days of a term hang on beside the term itself and the player. All of it keeps its identity
 * while its text does: two plans whose grounds are the same, each for each, unroll the term alike.
 */
export function termGround(plan: DaysPlan, term: Term): readonly unknown[] {
  const { exercises, routines } = namesIn(term);
  const ground: unknown[] = [plan.settings, plan.records.length, ...plan.records];
  for (const name of exercises) ground.push(plan.exercises.get(name));
  for (const name of routines) {
    const routine = plan.routines.get(name);
    ground.push(routine);
    if (routine !== undefined)
      for (const each of namesInRoutine(routine)) ground.push(plan.exercises.get(each));
  }
  return ground;
}

/** Whether two grounds are the same, each for each. */
export function sameGround(a: readonly unknown[], b: readonly unknown[]): boolean {
  return a.length === b.length && a.every((each, i) => each === b[i]);
}

interface Names {
  readonly exercises: ReadonlySet<Exercise["name"]>;
  readonly routines: ReadonlySet<Routine["name"]>;
}

const known = new WeakMap<Term, Names>();

/** The exercises and routines that a term asks for itself. */
function namesIn(term: Term): Names {
  const before = known.get(term);
  if (before !== undefined) return before;
  const exercises = new Set<string>();
  const routines = new Set<string>();
  for (const weeks of term.weeks) {
    for (const { routine, content } of weeks.sessions) {
      if (routine !== undefined) routines.add(routine.text);
      addNames(content, exercises);
    }
  }
  for (const { changes } of term.changes) {
    for (const change of changes) if (change.kind === "replace") exercises.add(change.by);
  }
  const names = { exercises, routines };
  known.set(term, names);
  return names;
}

const knownRoutines = new WeakMap<Routine, ReadonlySet<string>>();

function namesInRoutine(routine: Routine): ReadonlySet<string> {
  const before = knownRoutines.get(routine);
  if (before !== undefined) return before;
  const names = new Set<string>();
  addNames(routine.content, names);
  knownRoutines.set(routine, names);
  return names;
}

function addNames(content: SessionContent, names: Set<string>): void {
  for (const item of content.items) if ("exercise" in item) names.add(item.exercise);
  if (content.short !== undefined) addNames(content.short, names);
}
