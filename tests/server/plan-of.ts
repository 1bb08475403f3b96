import { readSource } from "../../grammar/pieces";
import type { Day, DayItem, PlayerTerm } from "../../server/days/day";
import { unrollTerm } from "../../server/days/unroll";
import { parseDate } from "../../server/plan/date";
import type { Place } from "../../server/plan/place";
import { buildPlan, type Plan } from "../../server/plan/plan";
import { checkPlan } from "../../server/rules/check";
import type { Finding } from "../../server/rules/finding";

/** A text read as one file that uses nothing, with a way from its places back to the text. */
export interface OneFile {
  readonly text: string;
  readonly plan: Plan;
  /** What the parser could not read. */
  readonly unread: readonly string[];
  readonly at: (place: Place) => { readonly start: number; readonly end: number };
}

export function fileOf(text: string): OneFile {
  const tree = readSource(text);
  return {
    text,
    plan: buildPlan(tree.pieces, []),
    unread: tree.pieces.flatMap((piece) => piece.problems.map((problem) => problem.message)),
    at: ({ piece, span }) => {
      const start = tree.starts[tree.pieces.indexOf(piece)];
      if (start === undefined) throw new Error("a place outside the file");
      return { start: start + span.start, end: start + span.end };
    },
  };
}

/** The plan of a text that must be readable. */
export function planOf(text: string): Plan {
  const { plan, unread } = fileOf(text);
  if (unread.length > 0) throw new Error(`the text cannot be read: ${unread.join("; ")}`);
  return plan;
}

export function findingsOf(plan: Plan): readonly Finding[] {
  return checkPlan(plan, { mentioned: plan.mentioned, hasTerm: plan.terms.size > 0 });
}

/** The only term of a plan as one player meets it. */
export function termOf(plan: Plan, player: string): PlayerTerm {
  const [term] = plan.terms.values();
  const who = plan.players.get(player);
  if (term === undefined || who === undefined) throw new Error("no term, or no such player");
  return unrollTerm(plan, term, who);
}

export function dayOf(term: PlayerTerm, date: string): Day {
  const number = parseDate(date);
  const day = term.days.find((each) => each.date === number);
  if (day === undefined) throw new Error(`no day ${date} in the term`);
  return day;
}

/** Everything asked for on one day, its sessions joined. */
export function itemsOf(day: Day): readonly DayItem[] {
  return day.sessions.flatMap((session) => session.items);
}
