import { Memory } from "../../grammar/memory";
import type { Plan } from "../plan/plan";
import { sameList } from "../plan/same-list";
import type { Term } from "../plan/term";
import { namesIn, namesInRoutine } from "../plan/term-names";

/** The parts of a plan that the days of its terms are made from. */
export type DaysPlan = Pick<Plan, "settings" | "exercises" | "routines" | "records">;

/**
 * Everything that the days of a term hang on beside the term itself and the player. All of it keeps its identity
 * while its text does: two plans in which all of it is the same unroll the term alike.
 */
export class TermGround {
  private readonly parts: readonly unknown[];

  constructor(
    private plan: DaysPlan,
    private readonly term: Term,
  ) {
    const parts: unknown[] = [];
    walk(plan, term, (part) => parts.push(part) > 0);
    this.parts = parts;
    this.plan = wholesOf(plan);
  }

  /** Whether it is all the same in this plan; asked with every letter that is typed. */
  holdsIn(plan: DaysPlan): boolean {
    const { settings, exercises, routines, records } = this.plan;
    if (!sameList(records, plan.records)) return false;
    // Plans share these while nothing in them differs, and then nothing need be looked up.
    if (settings === plan.settings && exercises === plan.exercises && routines === plan.routines) return true;
    let at = 0;
    const same = walk(plan, this.term, (part) => this.parts[at++] === part) && at === this.parts.length;
    if (same) this.plan = wholesOf(plan);
    return same;
  }
}

const grounds = new Memory<Term, TermGround>();

/** The ground of a term in this plan: the same one for as long as all of it is the same. */
export function groundOf(plan: DaysPlan, term: Term): TermGround {
  const before = grounds.get(term);
  if (before?.holdsIn(plan) === true) return before;
  const ground = new TermGround(plan, term);
  grounds.set(term, ground);
  return ground;
}

/** Of a plan no more than is looked at, so that nothing else is held on to. */
function wholesOf({ settings, exercises, routines, records }: DaysPlan): DaysPlan {
  return { settings, exercises, routines, records };
}

/** Hands out one part of a ground after the other until one is not welcome; whether all were. */
function walk(plan: DaysPlan, term: Term, welcome: (part: unknown) => boolean): boolean {
  const { settings, exercises, routines } = plan;
  if (!welcome(settings)) return false;
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
