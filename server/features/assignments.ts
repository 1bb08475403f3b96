import { Memory } from "../../grammar/memory";
import type { Piece } from "../../grammar/piece";
import type { Plan } from "../plan/plan";
import type { Assignment, Routine, SessionContent, Term } from "../plan/term";

const known = new Memory<Term | Routine, readonly Assignment[]>();

/** The assignments that a piece of a plan's own file holds, in the order of the text: those of a term or a routine. */
export function assignmentsIn(plan: Plan, piece: Piece): readonly Assignment[] {
  const term = plan.own.terms.find(({ place }) => place.piece === piece);
  if (term !== undefined) {
    return kept(term, () => term.weeks.flatMap(({ sessions }) => sessions.map(({ content }) => content)));
  }
  const routine = plan.own.routines.find(({ place }) => place.piece === piece);
  return routine === undefined ? [] : kept(routine, () => [routine.content]);
}

/** A term or a routine whose text did not change is the very same, and so are its assignments. */
function kept(owner: Term | Routine, contents: () => readonly SessionContent[]): readonly Assignment[] {
  const before = known.get(owner);
  if (before !== undefined) return before;
  const fresh = contents().flatMap((content) => [...contentAssignments(content)]);
  known.set(owner, fresh);
  return fresh;
}

function* contentAssignments(content: SessionContent): Generator<Assignment> {
  for (const item of content.items) if ("exercise" in item) yield item;
  if (content.short !== undefined) yield* contentAssignments(content.short);
}
