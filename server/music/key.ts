/**
 * Keys and the scales in them.
 *
 * A key is a tonic and a mode. Its signature is counted in fifths along F C G D A E B: sharps are positive,
 * flats negative. All spelling follows from that line, so nothing here is a table of twelve keys.
 */
import { byOctaves, type Interval } from "./interval.js";
import {
  alterSign,
  alterText,
  midiOf,
  type Pitch,
  parseAlter,
  pitchOn,
  stepLetter,
  stepOf,
  stepSemitones,
} from "./pitch.js";

/** The modes of the language. "minor" alone means natural minor. */
export type Mode =
  | "major"
  | "natural minor"
  | "harmonic minor"
  | "melodic minor"
  | "dorian"
  | "phrygian"
  | "lydian"
  | "mixolydian"
  | "locrian";

/** A note name without an octave: `step` 0–6 is C–B, `alter` −2…2 half steps. */
export interface Tonic {
  readonly step: number;
  readonly alter: number;
}

/** A tonic and its mode. */
export interface Key extends Tonic {
  readonly mode: Mode;
}

/** Which form of the melodic minor: raised sixth and seventh going up, natural coming down. */
export type Direction = "up" | "down";

/**
 * What each mode is: how many fifths its signature lies from that of the major key on the same tonic, and
 * whether its third is minor. Both are definitions of the modes.
 */
const MODE_FACTS: { readonly [mode in Mode]: { readonly fifths: number; readonly minorThird: boolean } } = {
  major: { fifths: 0, minorThird: false },
  "natural minor": { fifths: -3, minorThird: true },
  "harmonic minor": { fifths: -3, minorThird: true },
  "melodic minor": { fifths: -3, minorThird: true },
  dorian: { fifths: -2, minorThird: true },
  phrygian: { fifths: -4, minorThird: true },
  lydian: { fifths: 1, minorThird: false },
  mixolydian: { fifths: -1, minorThird: false },
  locrian: { fifths: -5, minorThird: true },
};

/** Every mode, in the order a teacher would list them. */
export const MODES: readonly Mode[] = Object.keys(MODE_FACTS) as Mode[];

/** Where each step lies on the line of fifths, C = 0: C 0, D 2, E 4, F −1, G 1, A 3, B 5. */
const STEP_FIFTHS: readonly number[] = [0, 2, 4, -1, 1, 3, 5];

/** The steps in the order of the line of fifths, from F (−1). */
const FIFTHS_STEPS: readonly number[] = [3, 0, 4, 1, 5, 2, 6];

/** The widest signature music is printed in; MusicXML and MIDI both stop here. */
const MOST_ACCIDENTALS = 7;

/** Reads a tonic: a capital letter and an accidental (`C`, `F#`, `Bb`, `E♭`). Undefined for other text. */
export function parseTonic(text: string): Tonic | undefined {
  const step = stepOf(text.charAt(0));
  const alter = parseAlter(text.slice(1));
  return step === undefined || alter === undefined ? undefined : { step, alter };
}

/** Reads a mode as typed, in lower case; `minor` is natural minor. Undefined for other text. */
export function parseMode(text: string): Mode | undefined {
  if (text === "minor") return "natural minor";
  return MODES.find((mode) => mode === text);
}

/** Whether two keys are written alike: the same tonic name and the same mode. */
export function sameKey(a: Key, b: Key): boolean {
  return a.step === b.step && a.alter === b.alter && a.mode === b.mode;
}

/** Whether a key's third is minor, as MIDI and MusicXML want to know of a signature. */
export function isMinor(key: Key): boolean {
  return MODE_FACTS[key.mode].minorThird;
}

/** The signature: sharps positive, flats negative. It may exceed seven; see `respelled`. */
export function fifthsOf(key: Key): number {
  return (STEP_FIFTHS[key.step] as number) + 7 * key.alter + MODE_FACTS[key.mode].fifths;
}

/** The key of a mode whose signature has so many fifths. */
export function keyOfFifths(fifths: number, mode: Mode): Key {
  const place = fifths - MODE_FACTS[mode].fifths + 1;
  const alter = Math.floor(place / 7);
  return { step: FIFTHS_STEPS[place - 7 * alter] as number, alter, mode };
}

/**
 * The key itself, or, where its signature would need more than seven accidentals, the enharmonic key
 * twelve fifths away (G♯ major, eight sharps, becomes A♭ major, four flats).
 */
export function respelled(key: Key): Key {
  const fifths = fifthsOf(key);
  if (fifths > MOST_ACCIDENTALS) return respelled(keyOfFifths(fifths - 12, key.mode));
  if (fifths < 0 - MOST_ACCIDENTALS) return respelled(keyOfFifths(fifths + 12, key.mode));
  return key;
}

/** The key for people: "B♭ major", "F♯ harmonic minor". Natural minor is said plainly: "A minor". */
export function keyName(key: Key): string {
  return `${stepLetter(key.step)}${alterSign(key.alter)} ${modeWord(key.mode)}`;
}

/** The key as the language types it: `Bb major`, `A minor`. */
export function keyText(key: Key): string {
  return `${stepLetter(key.step)}${alterText(key.alter)} ${modeWord(key.mode)}`;
}

function modeWord(mode: Mode): string {
  return mode === "natural minor" ? "minor" : mode;
}

/** What the key signature alone does to a step 0–6, in half steps: F in D major is +1. */
export function signatureAlter(key: Key, step: number): number {
  // A signature of f fifths takes the seven notes from f − 1 to f + 5 on the line of fifths.
  return Math.floor((fifthsOf(key) + 5 - (STEP_FIFTHS[step] as number)) / 7);
}

/**
 * What the mode adds to the signature on a scale step counted from the tonic (0–6), in half steps: the
 * raised seventh of the harmonic minor, the raised sixth and seventh of the melodic minor going up.
 */
function modeAlter(mode: Mode, index: number, direction: Direction): number {
  if (index < 5) return 0;
  if (mode === "harmonic minor") return index === 6 ? 1 : 0;
  return mode === "melodic minor" && direction === "up" ? 1 : 0;
}

/** Whether a number names a scale degree: 1…22 upwards, −1…−14 below the tonic. */
export function isDegree(degree: number): boolean {
  return Number.isInteger(degree) && degree !== 0 && degree >= -14 && degree <= 22;
}

/**
 * The written pitch of a scale degree.
 *
 * Degree 1 is the tonic in octave `tonicOctave` (the octave number of the tonic as spelled), 8 the tonic
 * above it, up to 22. A minus sign means an octave below: −7 is the seventh just under 1, −1 the tonic an
 * octave under it; −8…−14 are the same degrees one octave lower still, as 8…14 are one higher. `alter` adds
 * half steps to the degree as the scale has it. `direction` matters to the melodic minor alone.
 *
 * Throws a RangeError for a number that is not a degree (`isDegree`).
 */
export function degreePitch(
  key: Key,
  tonicOctave: number,
  degree: number,
  alter: number,
  direction: Direction = "up",
): Pitch {
  if (!isDegree(degree)) throw new RangeError(`${degree} is not a scale degree`);
  const count = (degree > 0 ? degree : 0 - degree) - 1;
  const octaves = Math.floor(count / 7);
  const index = count - 7 * octaves;
  const position = 7 * (tonicOctave + (degree > 0 ? octaves : -1 - octaves)) + key.step + index;
  const staffOctave = Math.floor(position / 7);
  const step = position - 7 * staffOctave;
  const scaleAlter = signatureAlter(key, step) + modeAlter(key.mode, index, direction);
  return pitchOn(position, 12 * (staffOctave + 1) + stepSemitones(step) + scaleAlter + alter);
}

/**
 * The interval from one tonic up to the other, 0 ≤ half steps < 12, spelled by the two names. The modes play
 * no part. Move it with `byOctaves` to shift down or farther up.
 */
export function keyShift(from: Key, to: Key): Interval {
  const semitones = tonicSemitones(to) - tonicSemitones(from);
  return byOctaves({ steps: to.step - from.step, semitones }, 0 - Math.floor(semitones / 12));
}

/** Half steps from C to the tonic as spelled; C♭ is −1. */
function tonicSemitones(tonic: Tonic): number {
  return stepSemitones(tonic.step) + tonic.alter;
}

/** The pitch of a key's tonic in an octave. */
export function tonicPitch(key: Tonic, octave: number): Pitch {
  return { step: key.step, alter: key.alter, octave };
}

/** Half steps above C, 0–11, of a key's tonic: equal for enharmonic keys. */
export function tonicClass(key: Tonic): number {
  return midiOf(tonicPitch(key, 4)) % 12;
}

/**
 * The key so many half steps from home (negative is down), in the same mode and in its common spelling:
 * the one with fewer accidentals. Where six sharps meet six flats, a key with a major third is written in
 * sharps (F♯ major) and one with a minor third in flats (E♭ minor), whichever way the walk goes and
 * whatever home is, so that a key has one name all through a term. Whole octaves bring back home's own name.
 */
export function tonicAt(home: Key, semitonesUp: number): Key {
  if (semitonesUp % 12 === 0) return home;
  // Each half step is seven fifths; bring the signature into −6…5 and then settle the tie.
  const fifths = fifthsOf(home) + 7 * semitonesUp;
  const least = fifths - 12 * Math.floor((fifths + 6) / 12);
  return keyOfFifths(least === -6 && !isMinor(home) ? 6 : least, home.mode);
}
