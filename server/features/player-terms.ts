import { Memory } from "../../grammar/memory";
import type { PlayerTerm } from "../days/day";
import { sharedUnrolling } from "../days/shared-unrolling";
import { type Plan, playersOf } from "../plan/plan";
import type { Term } from "../plan/term";

const known = new Memory<Plan, Map<Term, readonly PlayerTerm[]>>();

/**
 * A term as each of its players meets it, in the order in which they are declared. Unrolled once for as long as
 * the plan stays the same, since a view asks again with every move of the cursor.
 */
export function playerTerms(plan: Plan, term: Term): readonly PlayerTerm[] {
  let terms = known.get(plan);
  if (terms === undefined) {
    terms = new Map();
    known.set(plan, terms);
  }
  const before = terms.get(term);
  if (before !== undefined) return before;
  const unrolled = playersOf(plan, term).map(sharedUnrolling(plan, term));
  terms.set(term, unrolled);
  return unrolled;
}
