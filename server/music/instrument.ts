/**
 * The instruments, as data.
 *
 * Everything that sets one brass instrument apart from another is a field here; no other file knows a
 * trumpet from a horn. Pitches are written, as the player reads them.
 */
import { type Combination, combinations, type ThirdValve } from "./combination.js";
import type { Interval } from "./interval.js";
import { type Pitch, typedAccidentals } from "./pitch.js";

export interface Instrument {
  /** A name for data files, stable for ever: `trumpet-bflat`. */
  readonly id: string;
  /** The instrument for people: "trumpet in B♭". */
  readonly name: string;
  /** The instrument as the language types it: `trumpet in Bb`. */
  readonly text: string;
  /** The kind of instrument without its key: "piccolo trumpet". */
  readonly family: string;
  /** The key it is built in, as typed: `Bb`. */
  readonly builtIn: string;
  readonly clef: "treble" | "bass";
  /** From written to sounding pitch; a trumpet in B♭ sounds a whole step down. */
  readonly transposition: Interval;
  /** The lowest and highest notes of its ordinary range. */
  readonly lowest: Pitch;
  readonly highest: Pitch;
  /** The highest note anyone may ask for, beyond the ordinary range. */
  readonly exceptional: Pitch;
  /** The note a day starts from, and the yardstick (f₀) of load. */
  readonly home: Pitch;
  /** Written MIDI number of the first partial with no valve down; not itself a usable note on a trumpet. */
  readonly openFundamental: number;
  /** The partials players use, ascending; the seventh is left out for being flat. */
  readonly partials: readonly number[];
  /** Partials that serve only notes above the last of `partials`, ascending. */
  readonly highPartials: readonly number[];
  /** Valve combinations or slide positions, shortest tube first. */
  readonly combinations: readonly Combination[];
  /** How the third valve is cut; meaningless without valves. */
  readonly thirdValve: ThirdValve;
  /** General MIDI program, counted from 1. */
  readonly midiProgram: number;
  /** MusicXML 4.0 standard sound. */
  readonly soundId: string;
}

/**
 * What all treble-clef valved instruments of the trumpet's family share: they read and finger alike, and
 * differ only in what sounds.
 *
 * - Range F♯3–C6, E6 exceptional: *Instruments of the Modern Symphony Orchestra*, p. 40, for the B♭ trumpet;
 *   taken over for the others as common practice.
 * - Partials {2, 3, 4, 5, 6, 8}: the standard fingering chart. Above C6, C♯6–E6 are fingered as an octave
 *   lower, on the tenth partial: common practice, no source.
 * - Program 57: General MIDI Level 1; it has none for cornet or flugelhorn, so trumpet stands in.
 */
const TRUMPET_FAMILY = {
  clef: "treble",
  lowest: { step: 3, alter: 1, octave: 3 },
  highest: { step: 0, alter: 0, octave: 6 },
  exceptional: { step: 2, alter: 0, octave: 6 },
  home: { step: 4, alter: 0, octave: 4 },
  openFundamental: 48,
  partials: [2, 3, 4, 5, 6, 8],
  highPartials: [10],
  combinations,
  thirdValve: "true alone",
  midiProgram: 57,
} as const;

/**
 * All instruments, the usual one of each kind first: a kind named without its key means that one.
 * Sounds: MusicXML 4.0 standard sounds (W3C); it names no E♭ trumpet, so the plain trumpet stands.
 * Most piccolo trumpets have a fourth valve; down to F♯3 it only stands in for first and third.
 */
export const INSTRUMENTS: readonly Instrument[] = [
  {
    ...TRUMPET_FAMILY,
    id: "trumpet-bflat",
    name: "trumpet in B♭",
    text: "trumpet in Bb",
    family: "trumpet",
    builtIn: "Bb",
    transposition: { steps: -1, semitones: -2 },
    soundId: "brass.trumpet.bflat",
  },
  {
    ...TRUMPET_FAMILY,
    id: "trumpet-c",
    name: "trumpet in C",
    text: "trumpet in C",
    family: "trumpet",
    builtIn: "C",
    transposition: { steps: 0, semitones: 0 },
    soundId: "brass.trumpet.c",
  },
  {
    ...TRUMPET_FAMILY,
    id: "trumpet-d",
    name: "trumpet in D",
    text: "trumpet in D",
    family: "trumpet",
    builtIn: "D",
    transposition: { steps: 1, semitones: 2 },
    soundId: "brass.trumpet.d",
  },
  {
    ...TRUMPET_FAMILY,
    id: "trumpet-eflat",
    name: "trumpet in E♭",
    text: "trumpet in Eb",
    family: "trumpet",
    builtIn: "Eb",
    transposition: { steps: 2, semitones: 3 },
    soundId: "brass.trumpet",
  },
  {
    ...TRUMPET_FAMILY,
    id: "piccolo-trumpet-bflat",
    name: "piccolo trumpet in B♭",
    text: "piccolo trumpet in Bb",
    family: "piccolo trumpet",
    builtIn: "Bb",
    transposition: { steps: 6, semitones: 10 },
    soundId: "brass.trumpet.piccolo",
  },
  {
    ...TRUMPET_FAMILY,
    id: "piccolo-trumpet-a",
    name: "piccolo trumpet in A",
    text: "piccolo trumpet in A",
    family: "piccolo trumpet",
    builtIn: "A",
    transposition: { steps: 5, semitones: 9 },
    soundId: "brass.trumpet.piccolo",
  },
  {
    ...TRUMPET_FAMILY,
    id: "cornet-bflat",
    name: "cornet in B♭",
    text: "cornet in Bb",
    family: "cornet",
    builtIn: "Bb",
    transposition: { steps: -1, semitones: -2 },
    soundId: "brass.cornet",
  },
  {
    ...TRUMPET_FAMILY,
    id: "cornet-eflat",
    name: "cornet in E♭",
    text: "cornet in Eb",
    family: "cornet",
    builtIn: "Eb",
    transposition: { steps: 2, semitones: 3 },
    soundId: "brass.cornet.soprano",
  },
  {
    ...TRUMPET_FAMILY,
    id: "flugelhorn-bflat",
    name: "flugelhorn in B♭",
    text: "flugelhorn in Bb",
    family: "flugelhorn",
    builtIn: "Bb",
    transposition: { steps: -1, semitones: -2 },
    soundId: "brass.flugelhorn",
  },
];

/** Every way of asking for each instrument, in lower case; the first to claim a name keeps it. */
const BY_WORDS: ReadonlyMap<string, Instrument> = namesOf(INSTRUMENTS);

function namesOf(instruments: readonly Instrument[]): Map<string, Instrument> {
  const names = new Map<string, Instrument>();
  for (const instrument of instruments) {
    const family = instrument.family;
    for (const words of [`${family} in ${instrument.builtIn}`, `${instrument.builtIn} ${family}`, family]) {
      const key = words.toLowerCase();
      if (!names.has(key)) names.set(key, instrument);
    }
  }
  return names;
}

/**
 * The instrument a teacher means: `trumpet in Bb`, `trumpet in B♭`, `trumpet in B flat`, `Bb trumpet`, `piccolo trumpet in A`;
 * without a key, the usual one (B♭). Capitals and spacing do not matter. Undefined when unknown.
 */
export function findInstrument(words: string): Instrument | undefined {
  const typed = typedAccidentals(words).trim().replace(/\s+/g, " ").toLowerCase();
  return BY_WORDS.get(typed.replace(/[ -]flat\b/, "b"));
}

/** Every instrument as the language types it, for completion and for "did you mean". */
export function instrumentNames(): string[] {
  return INSTRUMENTS.map((instrument) => instrument.text);
}
