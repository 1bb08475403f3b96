/**
 * The distance between two written pitches, kept as musicians keep it: so many lines and spaces, and so
 * many half steps. Both are needed: C to D♯ and C to E♭ sound alike and are written differently.
 */
import { midiOf, type Pitch, pitchOn, staffPosition } from "./pitch.js";

/** Lines and spaces moved (`steps`) and half steps moved (`semitones`); both negative going down. */
export interface Interval {
  readonly steps: number;
  readonly semitones: number;
}

/** The intervals a walk through the keys may take, and the two that measure it, all going up. */
export const unison: Interval = { steps: 0, semitones: 0 };
export const halfStep: Interval = { steps: 1, semitones: 1 };
export const wholeStep: Interval = { steps: 1, semitones: 2 };
export const minorThird: Interval = { steps: 2, semitones: 3 };
export const majorThird: Interval = { steps: 2, semitones: 4 };
export const fourth: Interval = { steps: 3, semitones: 5 };
export const fifth: Interval = { steps: 4, semitones: 7 };
export const octave: Interval = { steps: 7, semitones: 12 };

/** The interval that takes `from` to `to`. */
export function intervalBetween(from: Pitch, to: Pitch): Interval {
  return { steps: staffPosition(to) - staffPosition(from), semitones: midiOf(to) - midiOf(from) };
}

/**
 * Moves a pitch by an interval and keeps its spelling (C♯4 up a major third is E♯4, not F4). A result
 * beyond a double sharp or double flat is respelled as the plainest note of the same sound.
 */
export function transpose(p: Pitch, by: Interval): Pitch {
  return pitchOn(staffPosition(p) + by.steps, midiOf(p) + by.semitones);
}

/** The same interval in the other direction. */
export function opposite(i: Interval): Interval {
  return { steps: 0 - i.steps, semitones: 0 - i.semitones };
}

/** An interval moved by whole octaves, up if `octaves` is positive. */
export function byOctaves(i: Interval, octaves: number): Interval {
  return { steps: i.steps + 7 * octaves, semitones: i.semitones + 12 * octaves };
}

/** Half steps of the perfect or major interval on each number of steps within the octave. */
const PLAIN_SEMITONES: readonly number[] = [0, 2, 4, 5, 7, 9, 11];

const NUMBERS: readonly string[] = ["unison", "second", "third", "fourth", "fifth", "sixth", "seventh"];

const COUNTS: readonly string[] = ["", "an octave", "two octaves", "three octaves", "four octaves"];

/**
 * The interval in a musician's words: "a fourth up", "a half step down", "an octave and a major third up",
 * "the same note". Perfect goes without saying. An interval with no common name (more than singly
 * augmented or diminished, or over four octaves) is told in half steps.
 */
export function intervalName(i: Interval): string {
  if (i.steps === 0 && i.semitones === 0) return "the same note";
  const down = i.steps < 0 || (i.steps === 0 && i.semitones < 0);
  const direction = down ? "down" : "up";
  const steps = Math.abs(i.steps);
  const semitones = down ? 0 - i.semitones : i.semitones;
  const octaves = Math.floor(steps / 7);
  const within = simpleName(steps - 7 * octaves, semitones - 12 * octaves);
  const count = COUNTS[octaves];
  if (within === undefined || count === undefined) return halfSteps(i.semitones);
  if (within === "") return `${count} ${direction}`;
  return octaves === 0 ? `${within} ${direction}` : `${count} and ${within} ${direction}`;
}

/** The name of an interval smaller than an octave, with its article; empty for a true unison. */
function simpleName(steps: number, semitones: number): string | undefined {
  const excess = semitones - (PLAIN_SEMITONES[steps] as number);
  const number = NUMBERS[steps] as string;
  if (steps === 0) return excess === 0 ? "" : excess === 1 ? "a chromatic half step" : undefined;
  if (steps === 3 || steps === 4) {
    if (excess === 0) return `a ${number}`;
    if (excess === 1) return `an augmented ${number}`;
    return excess === -1 ? `a diminished ${number}` : undefined;
  }
  if (steps === 1 && excess === 0) return "a whole step";
  if (steps === 1 && excess === -1) return "a half step";
  if (excess === 0) return `a major ${number}`;
  if (excess === -1) return `a minor ${number}`;
  if (excess === 1) return `an augmented ${number}`;
  return excess === -2 ? `a diminished ${number}` : undefined;
}

function halfSteps(semitones: number): string {
  const count = Math.abs(semitones);
  return `${count} half step${count === 1 ? "" : "s"} ${semitones < 0 ? "down" : "up"}`;
}
