import { Memory } from "../../grammar/memory";
import type { Instrument } from "../music/instrument";
import type { Key } from "../music/key";
import type { Exercise } from "../plan/exercise";
import type { Assignment } from "../plan/term";
import { type Travel, travelOf } from "./placement";
import type { DaysPlan } from "./term-ground";

/** The travels from where one instrument plays music that is written in one way and at home in one key. */
interface Home {
  readonly instrument: Instrument["id"];
  readonly by: string;
  readonly key: Key | undefined;
  /** By what is asked for; the empty text where no keys are. */
  readonly travels: Map<string, Travel>;
}

/** The travels of a plan's assignments, by all that they hang on. */
const homes = new Memory<DaysPlan["exercises"], Home[]>();

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
  let known = homes.get(exercises);
  if (known === undefined) {
    known = [];
    homes.set(exercises, known);
  }
  const { travels } = homeOf(known, exercise, instrument);
  const { keys, place } = assignment;
  const name = keys === undefined ? "" : askedFor(keys, place.piece.text);
  let travel = travels.get(name);
  if (travel === undefined) {
    travel = travelOf(assignment, exercise, instrument);
    // What is the matter with one is said at its own place.
    if (travel.troubles.length === 0) travels.set(name, travel);
  }
  return travel;
}

function homeOf(known: Home[], { content }: Exercise, { id }: Instrument): Home {
  const by = content.kind === "notes" ? content.by : content.kind;
  const key = content.kind === "notes" ? content.key : undefined;
  for (const home of known) {
    if (home.instrument === id && home.by === by && sameKey(home.key, key)) return home;
  }
  const home = { instrument: id, by, key, travels: new Map<string, Travel>() };
  known.push(home);
  return home;
}

function sameKey(a: Key | undefined, b: Key | undefined): boolean {
  if (a === undefined || b === undefined) return a === b;
  return a.step === b.step && a.alter === b.alter && a.mode === b.mode;
}

/** Some of what is asked for may stand before or behind, outside of the clause's own text. */
function askedFor(keys: NonNullable<Assignment["keys"]>, text: string): string {
  const words = text.slice(keys.span.start, keys.span.end);
  // Glued, as the others are: a part of a text alone would hold on to all of it.
  if (keys.kind === "in") return `${words},`;
  const manner = `${keys.all ? "all " : ""}${keys.pacing ?? ""}`;
  if (keys.kind === "valves") return `${words}, ${manner}`;
  const { folded, nextRound } = keys;
  if (nextRound === undefined) return `${words}${folded ? "; " : ", "}${manner}`;
  return `${words} ${manner} ${folded} ${nextRound.direction} ${nextRound.step}`;
}
