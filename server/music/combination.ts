/**
 * The ways of lengthening an instrument: valve combinations here, slide positions when a trombone joins.
 *
 * Each lowers the whole row of partials by some half steps. Two valves together are shorter than they
 * should be, since each was cut for the open instrument; that error is worked out from the tubing, not
 * listed.
 */

/** One setting of the valves or the slide. */
export interface Combination {
  /** How it is written over a note: `"0"` for open, `"12"`, `"123"`. */
  readonly name: string;
  /** Half steps it lowers the instrument. */
  readonly semitones: number;
  /** The valves pressed, by number; none for open and for a slide position. */
  readonly valves: readonly number[];
}

/** The seven combinations in the order partial exercises travel: each a half step lower. */
export const combinations: readonly Combination[] = [
  { name: "0", semitones: 0, valves: [] },
  { name: "2", semitones: 1, valves: [2] },
  { name: "1", semitones: 2, valves: [1] },
  { name: "12", semitones: 3, valves: [1, 2] },
  { name: "23", semitones: 4, valves: [2, 3] },
  { name: "13", semitones: 5, valves: [1, 3] },
  { name: "123", semitones: 6, valves: [1, 2, 3] },
];

/**
 * How long the third valve's tubing is cut: true when used alone (three half steps), or longer, so that
 * second and third together are true (four half steps).
 */
export type ThirdValve = "true alone" | "true with second";

/** Half steps each valve lowers the open instrument, by valve number; the fourth lowers a fourth. */
const VALVE_SEMITONES: readonly number[] = [0, 2, 1, 3, 5];

/** The tubing a lowering of so many half steps needs, as a part of the open instrument's length. */
function addedLength(semitones: number): number {
  return 2 ** (semitones / 12) - 1;
}

function valveLength(valve: number, thirdValve: ThirdValve): number {
  if (valve === 3 && thirdValve === "true with second") return addedLength(4) - addedLength(1);
  return addedLength(VALVE_SEMITONES[valve] as number);
}

/** How far, in cents, a set of valves (by number, 1–4) lowers the open instrument: the lengths add up. */
export function loweredCents(valves: readonly number[], thirdValve: ThirdValve): number {
  let length = 1;
  for (const valve of valves) length += valveLength(valve, thirdValve);
  return 1200 * Math.log2(length);
}

/**
 * The error of a combination in cents against equal temperament: positive is sharp (tubing too short).
 * A slide can be moved to the true place, so a combination without valves has none.
 */
export function combinationCents(combination: Combination, thirdValve: ThirdValve): number {
  if (combination.valves.length === 0) return 0;
  return 100 * combination.semitones - loweredCents(combination.valves, thirdValve);
}

/** Whether the third-valve slide must be pushed out: first and third together are far too sharp. */
export function takesThirdSlide(combination: Combination): boolean {
  return combination.valves.includes(1) && combination.valves.includes(3);
}
