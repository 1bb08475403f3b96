import { Memory } from "../../grammar/memory";
import type { Day, DayItem, DaySession, PlayerTerm } from "../days/day";
import { placementName } from "../days/placement";
import { named } from "../output/explained-exercise";
import { clockText, counted, plainNumber, secondsText } from "../output/numbers";
import { spokenDate } from "../plan/date";
import type { Plan } from "../plan/plan";
import type { Assignment } from "../plan/term";
import { lasting } from "../profile/profile";
import { itemName } from "../rules/contributions";
import { playerTerms } from "./player-terms";
import type { ShownText } from "./shown-text";

/** Runs of days alike that are told, one a line. */
const MOST_RUNS = 5;

/** An assignment on one of the days it falls on. */
export interface ItemOnDay {
  readonly day: Day;
  readonly session: DaySession;
  readonly item: DayItem;
}

/** Every day on which one player meets an assignment, in the order of time. */
function daysOfAssignment(term: PlayerTerm, assignment: Assignment): readonly ItemOnDay[] {
  return itemsByAssignment(term).get(assignment) ?? [];
}

const indexes = new Memory<PlayerTerm["days"], ReadonlyMap<Assignment, readonly ItemOnDay[]>>();

function itemsByAssignment({ days }: PlayerTerm): ReadonlyMap<Assignment, readonly ItemOnDay[]> {
  const known = indexes.get(days);
  if (known !== undefined) return known;
  const index = new Map<Assignment, ItemOnDay[]>();
  for (const day of days) {
    for (const session of day.sessions) {
      for (const item of session.items) {
        const list = index.get(item.assignment);
        if (list === undefined) index.set(item.assignment, [{ day, session, item }]);
        else list.push({ day, session, item });
      }
    }
  }
  indexes.set(days, index);
  return index;
}

/**
 * The days of an assignment for the first player who meets it. Only its own term is unrolled; a routine's may be
 * called up by any.
 */
export function meetingsOf(plan: Plan, assignment: Assignment): readonly ItemOnDay[] {
  const { piece } = assignment.place;
  const own = plan.own.terms.filter((term) => term.place.piece === piece);
  for (const term of own.length > 0 ? own : plan.own.terms) {
    for (const player of playerTerms(plan, term)) {
      const days = daysOfAssignment(player, assignment);
      if (days.length > 0) return days;
    }
  }
  return [];
}

/** When an assignment is practised and what it asks on its first days. */
export function assignmentText(plan: Plan, assignment: Assignment): readonly ShownText[] {
  const meetings = meetingsOf(plan, assignment);
  const [first] = meetings;
  if (first === undefined) return [];
  const last = meetings[meetings.length - 1] ?? first;
  const span =
    meetings.length === 1
      ? `on ${spokenDate(first.day.date)}`
      : `on ${counted(meetings.length, "day")}, ${spokenDate(first.day.date)} to ${spokenDate(last.day.date)}`;
  const lines = [span, ...runLines(meetings)];
  lines.push(`first day: ${sumLine(first.item)}`);
  return [{ heading: `“${assignment.exercise}” in “${first.session.session.name}”`, lines }];
}

/** The first days, those in a row that ask the very same in one line. */
function runLines(meetings: readonly ItemOnDay[]): readonly string[] {
  const runs: { readonly asks: string; readonly days: Day[] }[] = [];
  for (const { day, item } of meetings) {
    const asks = asksOf(item);
    const last = runs[runs.length - 1];
    if (last?.asks === asks) last.days.push(day);
    else if (runs.length === MOST_RUNS) break;
    else runs.push({ asks, days: [day] });
  }
  return runs.map(({ asks, days }) => {
    const [first] = days;
    const last = days[days.length - 1];
    if (first === undefined || last === undefined) return asks;
    // The line above has said which days they are.
    if (days.length === meetings.length) return `${days.length === 1 ? "asks" : "each day"}: ${asks}`;
    const when = spokenDate(first.date);
    return first === last
      ? `${when}: ${asks}`
      : `${when} to ${spokenDate(last.date)}, ${counted(days.length, "day")}: ${asks}`;
  });
}

/** `C major at 50, 1:40, upper 0:12, up to G5` */
function asksOf(item: DayItem): string {
  const upper = item.upper >= 0.5 ? `, upper ${clockText(item.upper)}` : "";
  const tempo = item.bpm === undefined ? "" : ` at ${plainNumber(item.bpm)}`;
  const high = highestOf(item);
  const top = high === undefined ? "" : `, up to ${high}`;
  const where = whereOf(item);
  return `${where}${tempo}${where === "" && tempo === "" ? "" : ", "}${clockText(item.clock)}${upper}${top}`;
}

function whereOf({ passes, exercise, assignment }: DayItem): string {
  const names = passes.map(({ placement }) => placementName(placement)).filter((name) => name !== "");
  const [first] = names;
  const instead = exercise.name === assignment.exercise ? "" : `“${exercise.name}” instead, `;
  if (first === undefined) return instead.replace(/, $/, "");
  const last = names[names.length - 1];
  return `${instead}${last === undefined || last === first ? first : `${first} to ${last}`}`;
}

/** The highest note of a day's item, in the key it is played in; undefined where it has no notes. */
export function highestOf({ passes, profile }: DayItem): string | undefined {
  const [first] = passes;
  if (first === undefined || profile.high === undefined) return undefined;
  let top = first.placement;
  for (const { placement } of passes) if (placement.semitones > top.semitones) top = placement;
  return named(profile.high + top.semitones, top);
}

/** The sum behind an item's minutes: `3 × (20.5 s playing + 20.5 s rest) = 2:03`. */
export function sumLine(item: DayItem): string {
  const times = item.passes.reduce((sum, pass) => sum + pass.times, 0);
  const playing = lasting(item.profile.playing, item.wholeSeconds);
  const inside = lasting(item.profile.resting, item.wholeSeconds);
  const parts = [`${secondsText(playing)} playing`];
  if (inside >= 0.05) parts.push(`${secondsText(inside)} rests in it`);
  if (item.restAfter >= 0.05) parts.push(`${secondsText(item.restAfter)} rest after it`);
  return `${times} × (${parts.join(" + ")}) = ${clockText(item.clock)}`;
}

/** An item as a line of a sum: `2:03 “Slow fifths” in C major`. */
export function itemLine(item: DayItem): string {
  return `${clockText(item.clock)} ${itemName(item)}`;
}
