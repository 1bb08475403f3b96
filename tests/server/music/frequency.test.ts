import fc from "fast-check";
import { Midi } from "tonal";
import { describe, expect, it, test } from "vitest";
import {
  A4_HERTZ,
  centsBetween,
  hertz,
  noteFromHertz,
  soundingMidi,
} from "../../../server/music/frequency.js";
import { findInstrument, type Instrument } from "../../../server/music/instrument.js";
import { midiOf, parsePitch } from "../../../server/music/pitch.js";
import { FIXED } from "./fixed-seed.js";

const trumpet = findInstrument("trumpet in Bb") as Instrument;

/** What a written note sounds on the B♭ trumpet, in hertz. */
function sounding(text: string): number {
  const read = parsePitch(text);
  if (read === undefined) throw new Error(`${text} is not a pitch`);
  return hertz(soundingMidi(midiOf(read), trumpet));
}

describe("tuning", () => {
  // ISO 16:1975.
  it("has A4 at 440 Hz", () => {
    expect(A4_HERTZ).toBe(440);
    expect(hertz(69)).toBe(440);
  });

  it("can be tuned elsewhere", () => {
    expect(hertz(69, 442)).toBe(442);
    expect(hertz(81, 415)).toBeCloseTo(830, 9);
  });

  it("agrees with tonal on all 128 notes", () => {
    for (let midi = 0; midi < 128; midi++) expect(hertz(midi)).toBeCloseTo(Midi.midiToFreq(midi), 9);
  });
});

describe("written notes on the B♭ trumpet", () => {
  // Derived (facts, "sounding Hz"): f = 440·2^((m−69)/12), sounding = written − 2.
  test.each([
    ["F#3", 164.81],
    ["G3", 174.61],
    ["A3", 196.0],
    ["C4", 233.08],
    ["D4", 261.63],
    ["E4", 293.66],
    ["F4", 311.13],
    ["G4", 349.23],
    ["A4", 392.0],
    ["Bb4", 415.3],
    ["C5", 466.16],
    ["D5", 523.25],
    ["E5", 587.33],
    ["F5", 622.25],
    ["G5", 698.46],
    ["A5", 783.99],
    ["Bb5", 830.61],
    ["C6", 932.33],
  ])("%s sounds at %d Hz", (note, expected) => {
    expect(sounding(note)).toBeCloseTo(expected, 2);
  });

  // Wrong on purpose (facts): B♭3 as 244.08 Hz; the truth is 233.08.
  it("rejects 244.08 Hz for a sounding B♭3", () => {
    const bFlat = hertz(58);
    expect(bFlat).toBeCloseTo(233.08, 2);
    expect(Math.abs(bFlat - 244.08)).toBeGreaterThan(10);
    expect(noteFromHertz(244.08).midi).not.toBe(58);
  });

  // Derived (facts, "pitch ratios").
  test.each([
    ["C4", "G4", 1.4983],
    ["C4", "C5", 2],
    ["C4", "C6", 4],
    ["F#3", "C6", 5.6569],
  ])("%s to %s is a ratio of %d", (from, to, ratio) => {
    expect(sounding(to) / sounding(from)).toBeCloseTo(ratio, 4);
  });

  // Derived (facts, "pitch ratios").
  it("has half steps of 1.059463", () => {
    expect(hertz(70) / hertz(69)).toBeCloseTo(1.059_463, 6);
  });
});

describe("cents", () => {
  it("counts 1200 to the octave, downwards negative", () => {
    expect(centsBetween(220, 440)).toBeCloseTo(1200, 9);
    expect(centsBetween(440, 220)).toBeCloseTo(-1200, 9);
    expect(centsBetween(440, 440)).toBe(0);
  });

  it("finds the note again from its frequency", () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 127 }), fc.integer({ min: -49, max: 49 }), (midi, cents) => {
        const back = noteFromHertz(hertz(midi + cents / 100));
        expect(back.midi).toBe(midi);
        expect(back.cents).toBeCloseTo(cents, 6);
        expect(centsBetween(hertz(midi), hertz(midi + cents / 100))).toBeCloseTo(cents, 6);
      }),
      FIXED,
    );
  });
});
