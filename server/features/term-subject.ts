import { parseDate } from "../plan/date";
import type { Booking, Closure, Session, Term, WeeksPlan } from "../plan/term";
import type { Held } from "./tree-at";

/** What of a term a place speaks of: the innermost thing that asks for days. */
export type TermSubject =
  | { readonly kind: "date"; readonly date: number }
  | { readonly kind: "session"; readonly session: Session }
  | { readonly kind: "booking"; readonly booking: Booking }
  | { readonly kind: "closure"; readonly closure: Closure }
  | { readonly kind: "weeks"; readonly weeks: WeeksPlan };

/** The subject of the nodes that hold a cursor; undefined where the text speaks of the term as a whole. */
export function termSubject(term: Term, chain: readonly Held[]): TermSubject | undefined {
  for (const held of chain.toReversed()) {
    const subject = subjectOf(term, held);
    if (subject !== undefined) return subject;
  }
  return undefined;
}

function subjectOf(term: Term, { as, node }: Held): TermSubject | undefined {
  if (as === "leaf") {
    const date = node.text === undefined ? undefined : parseDate(node.text);
    return date === undefined ? undefined : { kind: "date", date };
  }
  const { start } = node.span;
  const session = term.weeks
    .flatMap((weeks) => weeks.sessions)
    .find((each) => each.place.span.start === start);
  if (session !== undefined) return { kind: "session", session };
  if (as !== "statement") return undefined;
  const booking = term.bookings.find((each) => each.place.span.start === start);
  if (booking !== undefined) return { kind: "booking", booking };
  const closure = term.closures.find((each) => each.place.span.start === start);
  if (closure !== undefined) return { kind: "closure", closure };
  if (node.kind === "weeks") {
    const weeks = term.weeks.find((each) => each.place.span.start === node.weeks.span.start);
    return weeks === undefined ? undefined : { kind: "weeks", weeks };
  }
  return undefined;
}
