import { K } from "../../grammar/tokens";
import { taughtWeeks } from "../days/taught-weeks";
import { dateText, mondayOf, parseDate, WEEKDAYS, weekdayOf } from "../plan/date";
import type { Plan } from "../plan/plan";
import type { Term } from "../plan/term";
import { type Proposal, valueProposal } from "./completion-item";
import type { Scene } from "./completion-scene";
import { closureOf, shortDate } from "./day-view";

/** Days that are shown while a date is being typed; a term holds too many to choose from. */
const MOST_DAYS = 62;

const LONG_WEEKDAYS = ["Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"] as const;

/**
 * Days of the term that are not closed: once a month is typed all of it, before that its Mondays, and both ends.
 * For a term without dates, days that follow the last one.
 */
export function dateProposals(scene: Scene): readonly Proposal[] {
  const { term, place, plan } = scene;
  const after = earlierDate(scene);
  if (term === undefined || (place.block === "term" && place.said[0]?.tokenType === K.from)) {
    return newTermDates(plan, term, after);
  }
  const { from, to } = term.dates;
  const open = (date: number): boolean =>
    closureOf(term, date)?.how !== "closed" && (after === undefined || date >= after);
  const days: number[] = [];
  const typed = /^\d{4}-\d/.test(place.prefix);
  for (let date = from; date <= to && days.length < MOST_DAYS; date++) {
    if (!open(date)) continue;
    if (typed ? dateText(date).startsWith(place.prefix) : weekdayOf(date) === 0) days.push(date);
  }
  const weeks = taughtWeeks(term);
  // The end of a stretch most often is the end of the week it begins in.
  const near = after === undefined ? [] : [mondayOf(after) + 4, mondayOf(after) + 5, after + 1];
  const ends = typed ? [] : [from, to];
  return [...near.filter((date) => date <= to && open(date)), ...days, ...ends.filter(open)].map((date) =>
    valueProposal(dateText(date), dayDetail(term, date, weeks.weekOf(date))),
  );
}

function dayDetail(term: Term, date: number, week: number | undefined): string {
  const parts = [LONG_WEEKDAYS[weekdayOf(date)] ?? ""];
  if (week !== undefined) parts.push(`week ${week}`);
  if (date === term.dates.from) parts.push("first day of the term");
  if (date === term.dates.to) parts.push("last day of the term");
  return parts.join(", ");
}

/** The date before `to`, which what follows cannot come before. */
function earlierDate({ place: { said } }: Scene): number | undefined {
  const [before, to] = said.slice(-2);
  return before !== undefined && to?.tokenType === K.to ? parseDate(before.image) : undefined;
}

/** Weeks of a term, at a guess, for the end of one that is being written. */
const TERM_WEEKS = 13;

function newTermDates(plan: Plan, term: Term | undefined, after: number | undefined): readonly Proposal[] {
  if (after !== undefined) {
    const friday = mondayOf(after) + 4;
    return Array.from({ length: 4 }, (_, i) => friday + 7 * (TERM_WEEKS - 2 + i)).map((date) =>
      valueProposal(dateText(date), LONG_WEEKDAYS[weekdayOf(date)]),
    );
  }
  const ends = [...plan.terms.values()]
    .filter((each) => each !== term)
    .map((each) => ({ monday: mondayOf(each.dates.to) + 7, name: each.name }));
  return ends.map(({ monday, name }) => valueProposal(dateText(monday), `the Monday after “${name}”`));
}

/** Days of the week, the days of practice first; behind `to` those that follow. */
export function weekdayProposals({ term, place: { said } }: Scene): readonly Proposal[] {
  const practice = term?.practice ?? 0b0111111;
  const last = said[said.length - 1]?.tokenType;
  const from = last === K.to ? WEEKDAYS.findIndex((day) => day === said[said.length - 2]?.image) : -1;
  const order = [0, 1, 2, 3, 4, 5, 6].filter((day) => day > from);
  const days = order
    .toSorted((a, b) => Number((practice & (1 << a)) === 0) - Number((practice & (1 << b)) === 0))
    .map((day) => valueProposal(WEEKDAYS[day] ?? "", LONG_WEEKDAYS[day]));
  const ranges = last === K.practice ? ["Mon to Fri", "Mon to Sat"].map((text) => valueProposal(text)) : [];
  return [...ranges, ...days];
}

/** Taught weeks with their dates, those without a plan first. */
export function weekProposals(scene: Scene): readonly Proposal[] {
  const { plan, place } = scene;
  const term = scene.term ?? termOfRecord(scene, plan);
  if (term === undefined) return [1, 2, 3, 4, 5, 6].map((week) => valueProposal(String(week)));
  const weeks = taughtWeeks(term);
  const planned = new Set(term.weeks.flatMap((block) => block.weeks ?? []));
  const mondays = new Map<number, number>();
  for (let date = mondayOf(term.dates.from); date <= term.dates.to; date += 7) {
    for (let day = date; day < date + 7; day++) {
      const week = weeks.weekOf(Math.max(day, term.dates.from));
      if (week !== undefined && !mondays.has(week)) mondays.set(week, date);
    }
  }
  const [before, to] = place.said.slice(-2);
  const least = to?.tokenType === K.to ? Number(before?.image ?? 0) : 0;
  const numbers = [...mondays.keys()].filter((week) => week > least);
  // Behind `to` the far end is meant, and the planned weeks stand between.
  const order =
    least > 0
      ? numbers
      : numbers.toSorted((a, b) => Number(planned.has(a)) - Number(planned.has(b)) || a - b);
  return order.map((week) => {
    const monday = mondays.get(week) ?? 0;
    const sunday = shortDate(monday + 6);
    const mark = planned.has(week) ? ", planned already" : "";
    return valueProposal(String(week), `${shortDate(monday)} to ${sunday}${mark}`);
  });
}

function termOfRecord({ place }: Scene, plan: Plan): Term | undefined {
  const declaration = place.piece?.piece.declaration;
  return declaration?.kind === "record" ? plan.terms.get(declaration.term.text) : undefined;
}
