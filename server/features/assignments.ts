import type { Plan } from "../plan/plan";
import type { Assignment, SessionContent } from "../plan/term";

const assignments = new WeakMap<Plan, readonly Assignment[]>();

/** Every assignment of a plan's own terms and routines. */
export function assignmentsOf(plan: Plan): readonly Assignment[] {
  const known = assignments.get(plan);
  if (known !== undefined) return known;
  const all = [
    ...plan.own.terms.flatMap((term) =>
      term.weeks.flatMap(({ sessions }) =>
        sessions.flatMap(({ content }) => [...contentAssignments(content)]),
      ),
    ),
    ...plan.own.routines.flatMap(({ content }) => [...contentAssignments(content)]),
  ];
  assignments.set(plan, all);
  return all;
}

function* contentAssignments(content: SessionContent): Generator<Assignment> {
  for (const item of content.items) if ("exercise" in item) yield item;
  if (content.short !== undefined) yield* contentAssignments(content.short);
}
