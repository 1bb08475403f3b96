import type { KeysClause, KeyText, StepWord, ValvesClause } from "../../grammar/tree";
import type { Combination } from "../music/combination";
import type { Instrument } from "../music/instrument";
import {
  type Key,
  keyName,
  keyText,
  type Mode,
  parseTonic,
  type Tonic,
  tonicAt,
  tonicClass,
} from "../music/key";
import type { Exercise } from "../plan/exercise";
import type { Place } from "../plan/place";
import { stepInterval } from "../plan/reader";
import type { Assignment } from "../plan/term";
import type { Trouble } from "../plan/trouble";

/** Where an exercise is played: so many half steps from home, under the name of a key or a combination. */
export interface Placement {
  readonly semitones: number;
  /** Undefined for partials and for work without a key. */
  readonly key: Key | undefined;
  readonly combination: Combination | undefined;
  /** Set where music by degrees is asked for in another mode. */
  readonly mode: Mode | undefined;
}

/** The keys an assignment travels through, before any day is counted. */
export interface Travel {
  readonly placements: readonly Placement[];
  /** All of them each day. */
  readonly all: boolean;
  readonly pacing: "onward" | "afresh" | "when passed";
  /** Half steps the next round is moved by. */
  readonly nextRound: number;
  /** Whether keys an octave or more from home come back by octaves, in later rounds too. */
  readonly folded: boolean;
  readonly troubles: readonly Trouble[];
}

/** How a travel goes on from one day to the next. */
type Manner = Pick<Travel, "all" | "pacing" | "nextRound" | "folded">;

const STAYING: Manner = { all: true, pacing: "onward", nextRound: 0, folded: false };

/** Every travel is made here: the engine then finds what is asked of it on each day in the same place. */
function madeTravel(placements: readonly Placement[], manner: Manner, troubles: readonly Trouble[]): Travel {
  return {
    placements,
    all: manner.all,
    pacing: manner.pacing,
    nextRound: manner.nextRound,
    folded: manner.folded,
    troubles,
  };
}

/** And every placement here. */
function madePlacement(
  semitones: number,
  key: Key | undefined,
  combination: Combination | undefined,
  mode: Mode | undefined,
): Placement {
  return { semitones, key, combination, mode };
}

/** Steps, at most, that a walk is followed: by then every step has come round to where it began. */
const LONGEST_WALK = 12;

/** What a placement is called: "G major", "valves 12", or nothing for home without a key. */
export function placementName({ key, combination }: Placement): string {
  if (combination !== undefined) return combination.name === "0" ? "open" : `valves ${combination.name}`;
  return key === undefined ? "" : keyName(key);
}

/** Where the exercise is at home. */
export function homePlacement(exercise: Exercise, instrument: Instrument): Placement {
  const { content } = exercise;
  const partials = content.kind === "notes" && content.by === "partials";
  const key = content.kind === "notes" ? content.key : undefined;
  return madePlacement(0, key, partials ? instrument.combinations[0] : undefined, undefined);
}

/** The travel of an assignment, whoever asks and whenever. What cannot be is noted and left out. */
export function travelOf(assignment: Assignment, exercise: Exercise, instrument: Instrument): Travel {
  const troubles: Trouble[] = [];
  const { keys } = assignment;
  const home = homePlacement(exercise, instrument);
  const stay = madeTravel([home], STAYING, troubles);
  if (keys === undefined) return stay;
  const place: Place = { piece: assignment.place.piece, span: keys.span };
  const { content } = exercise;
  if (keys.kind === "valves") {
    if (content.kind !== "notes" || content.by !== "partials") {
      troubles.push({ kind: "no-valves", place, exercise: exercise.name });
      return stay;
    }
    const { all, pacing = "onward" } = keys;
    return madeTravel(
      onValves(keys, home, instrument),
      { all, pacing, nextRound: 0, folded: false },
      troubles,
    );
  }
  if (content.kind !== "notes" || content.by === "partials" || content.key === undefined) {
    const why = content.kind === "notes" ? "partials" : content.kind;
    troubles.push({ kind: "no-key", place, exercise: exercise.name, why });
    return stay;
  }
  const homeKey = content.key;
  const keyed = (node: KeyText): Key | undefined => {
    const tonic = tonicOf(node.tonic);
    if (tonic === undefined) {
      troubles.push({ kind: "impossible-pitch", place: { ...place, span: node.span }, text: node.tonic });
      return undefined;
    }
    const mode = node.mode === undefined ? homeKey.mode : node.mode === "minor" ? "natural minor" : node.mode;
    // Written notes cannot change their mode; degrees can.
    if (mode !== homeKey.mode && content.by === "pitches") {
      const asked = keyName({ ...tonic, mode });
      troubles.push({
        kind: "other-mode",
        place: { ...place, span: node.span },
        exercise: exercise.name,
        home: keyName(homeKey),
        asked,
      });
      return undefined;
    }
    return { step: tonic.step, alter: tonic.alter, mode };
  };
  const placed = (key: Key, semitones: number): Placement =>
    madePlacement(semitones, key, undefined, key.mode === homeKey.mode ? undefined : key.mode);
  if (keys.kind === "in") {
    const key = keyed(keys.key);
    return key === undefined
      ? stay
      : madeTravel([placed(key, nearestShift(homeKey, key))], STAYING, troubles);
  }
  const placements = keys.travel.kind === "list" ? listed(keys.travel) : walk(keys.travel);
  const { all, pacing = "onward" } = keys;
  const nextRound = keys.nextRound === undefined ? 0 : signed(keys.nextRound);
  const manner = { all, pacing, nextRound, folded: keys.folded };
  return madeTravel(placements.length === 0 ? [home] : placements, manner, troubles);

  function listed(travel: Extract<KeysClause["travel"], { kind: "list" }>): readonly Placement[] {
    const placements: Placement[] = [];
    for (const each of travel.keys) {
      const key = keyed(each.key);
      if (key !== undefined) placements.push(placed(key, shiftBeside(homeKey, key, each.place)));
    }
    return placements;
  }

  function walk(travel: Extract<KeysClause["travel"], { kind: "walk" }>): readonly Placement[] {
    const from = keyed(travel.from);
    const to = keyed(travel.to);
    if (from === undefined || to === undefined) return [];
    // Few walks are walked, by many exercises; each is worked out once.
    const name = `${keyText(homeKey)} ${keyText(from)} ${keyText(to)} ${travel.direction} ${travel.step}`;
    const known = walks.get(name);
    if (known !== undefined) return known;
    const step = signed(travel);
    const start = nearestShift(homeKey, from);
    const placements = [placed(from, start)];
    const goal = tonicClass(to);
    for (let n = 1; n <= LONGEST_WALK; n++) {
      const semitones = start + n * step;
      const key = { ...tonicAt(from, n * step), mode: from.mode };
      if (tonicClass(key) === goal) {
        placements.push(placed({ ...to, mode: from.mode }, semitones));
        walks.set(name, placements);
        return placements;
      }
      placements.push(placed(key, semitones));
    }
    troubles.push({
      kind: "walk-unreachable",
      place: { piece: place.piece, span: { start: travel.from.span.start, end: travel.to.span.end } },
      from: keyName(from),
      to: keyName(to),
      step: travel.step,
    });
    return placements.slice(0, 1);
  }
}

/** Walks that arrive, by home, ends and step: bounded by the names of keys. */
const walks = new Map<string, readonly Placement[]>();
const tonics = new Map<string, Tonic | undefined>();

/** The grammar lets few names through; each is read once. */
function tonicOf(text: string): Tonic | undefined {
  if (tonics.has(text)) return tonics.get(text);
  const tonic = parseTonic(text);
  tonics.set(text, tonic);
  return tonic;
}

function signed(travel: { readonly direction: "up" | "down"; readonly step: StepWord }): number {
  const { semitones } = stepInterval(travel.step);
  return travel.direction === "up" ? semitones : -semitones;
}

/** −5 to 6 half steps: as near home as can be, the tritone above. */
export function nearestShift(home: Key, key: Key): number {
  const up = (((tonicClass(key) - tonicClass(home)) % 12) + 12) % 12;
  return up > 6 ? up - 12 : up;
}

function shiftBeside(home: Key, key: Key, place: "above" | "below" | undefined): number {
  const near = nearestShift(home, key);
  if (place === "above") return near <= 0 ? near + 12 : near;
  if (place === "below") return near >= 0 ? near - 12 : near;
  return near;
}

/** A placement brought back by octaves, so that it lies less than one from home. */
export function folded({ semitones, key, combination, mode }: Placement): Placement {
  return madePlacement(semitones % 12, key, combination, mode);
}

/** A placement moved by half steps, its key spelled as it commonly is. */
export function movedPlacement(from: Placement, semitones: number): Placement {
  if (semitones === 0) return from;
  const key = from.key === undefined ? undefined : tonicAt(from.key, semitones);
  return madePlacement(from.semitones + semitones, key, from.combination, from.mode);
}

function onValves(keys: ValvesClause, home: Placement, instrument: Instrument): readonly Placement[] {
  const all = instrument.combinations;
  const indexOf = (word: string): number =>
    all.findIndex((each) => each.name === (word === "open" ? "0" : word));
  const indexes: number[] = [];
  if (keys.travel.kind === "list")
    indexes.push(...keys.travel.combinations.map((each) => indexOf(each.text)));
  else {
    const from = indexOf(keys.travel.from.text);
    const to = indexOf(keys.travel.to.text);
    const step = from <= to ? 1 : -1;
    for (let i = from; i !== to + step; i += step) indexes.push(i);
  }
  const placements = indexes
    .map((index) => all[index])
    .filter((combination) => combination !== undefined)
    .map((combination) => madePlacement(0 - combination.semitones, home.key, combination, home.mode));
  return placements.length === 0 ? [home] : placements;
}
