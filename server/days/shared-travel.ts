import { Memory } from "../../grammar/memory";
import type { Instrument } from "../music/instrument";
import { keyText } from "../music/key";
import type { Exercise } from "../plan/exercise";
import type { Assignment } from "../plan/term";
import { type Travel, travelOf } from "./placement";
import type { DaysPlan } from "./term-ground";

/** The travels of a plan's assignments, by all that they hang on. */
const travels = new Memory<DaysPlan["exercises"], Map<string, Travel>>();

/**
 * The travel of an assignment. Many of a plan's assignments ask in the same words for the same keys of exercises
 * that are at home in the same key; those share one.
 */
export function sharedTravel(
  { exercises }: DaysPlan,
  assignment: Assignment,
  exercise: Exercise,
  instrument: Instrument,
): Travel {
  let known = travels.get(exercises);
  if (known === undefined) {
    known = new Map();
    travels.set(exercises, known);
  }
  const name = nameOf(assignment, exercise, instrument);
  let travel = known.get(name);
  if (travel === undefined) {
    travel = travelOf(assignment, exercise, instrument);
    // What is the matter with one is said at its own place.
    if (travel.troubles.length === 0) known.set(name, travel);
  }
  return travel;
}

function nameOf({ keys, place }: Assignment, { content }: Exercise, instrument: Instrument): string {
  const home =
    content.kind === "notes"
      ? `${content.by} ${content.key === undefined ? "" : keyText(content.key)}`
      : content.kind;
  return `${instrument.id} ${home}: ${keys === undefined ? "" : askedFor(keys, place.piece.text)}`;
}

/** Some of what is asked for may stand before or behind, outside of the clause's own text. */
function askedFor(keys: NonNullable<Assignment["keys"]>, text: string): string {
  const words = text.slice(keys.span.start, keys.span.end);
  if (keys.kind === "in") return words;
  if (keys.kind === "valves") return `${words} ${keys.all} ${keys.pacing}`;
  const { all, pacing, folded, nextRound } = keys;
  return `${words} ${all} ${pacing} ${folded} ${nextRound?.direction} ${nextRound?.step}`;
}
