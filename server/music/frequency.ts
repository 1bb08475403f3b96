/** Pitch as sound: frequencies in equal temperament. */
import type { Instrument } from "./instrument.js";

/** The standard tuning frequency of A4 in hertz: ISO 16:1975. */
export const A4_HERTZ = 440;

/** The MIDI number of A4. */
const A4_MIDI = 69;

/** The frequency in hertz of a sounding MIDI number (which may be fractional, for a bend). */
export function hertz(soundingMidi: number, a4 = A4_HERTZ): number {
  return a4 * 2 ** ((soundingMidi - A4_MIDI) / 12);
}

/** The MIDI number that sounds when the instrument plays a written one. */
export function soundingMidi(writtenMidi: number, instrument: Instrument): number {
  return writtenMidi + instrument.transposition.semitones;
}

/** The distance from one frequency up to another in cents; negative when the second is lower. */
export function centsBetween(from: number, to: number): number {
  return 1200 * Math.log2(to / from);
}

/** The sounding MIDI number nearest to a frequency above zero, and how many cents above it that lies. */
export function noteFromHertz(frequency: number, a4 = A4_HERTZ): { midi: number; cents: number } {
  const exact = A4_MIDI + 12 * Math.log2(frequency / a4);
  // Adding zero turns −0 into 0.
  const midi = Math.round(exact) + 0;
  return { midi, cents: 100 * (exact - midi) };
}
