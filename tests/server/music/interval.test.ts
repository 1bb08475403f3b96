import fc from "fast-check";
import { Note, Interval as TonalInterval } from "tonal";
import { describe, expect, it, test } from "vitest";
import {
  byOctaves,
  fifth,
  fourth,
  halfStep,
  type Interval,
  intervalBetween,
  intervalName,
  majorThird,
  minorThird,
  octave,
  opposite,
  transpose,
  unison,
  wholeStep,
} from "../../../server/music/interval.js";
import { midiOf, parsePitch, pitchName } from "../../../server/music/pitch.js";
import { anyPitch } from "./arbitrary.js";
import { FIXED } from "./fixed-seed.js";

function pitch(text: string) {
  const read = parsePitch(text);
  if (read === undefined) throw new Error(`${text} is not a pitch`);
  return read;
}

/** The named intervals beside tonal's spelling of them. */
const NAMED: readonly (readonly [string, Interval])[] = [
  ["1P", unison],
  ["2m", halfStep],
  ["2M", wholeStep],
  ["3m", minorThird],
  ["3M", majorThird],
  ["4P", fourth],
  ["5P", fifth],
  ["8P", octave],
];

describe("named intervals", () => {
  test.each(NAMED)("%s is as tonal has it", (name, interval) => {
    const oracle = TonalInterval.get(name);
    expect(interval).toEqual({
      steps: (oracle.step ?? 0) + 7 * (oracle.oct ?? 0),
      semitones: oracle.semitones,
    });
  });
});

describe("transposing", () => {
  test.each([
    ["C4", fifth, "G4"],
    ["C#4", majorThird, "E#4"],
    ["Bb3", halfStep, "Cb4"],
    ["B4", halfStep, "C5"],
    ["D5", opposite(fourth), "A4"],
    ["G#4", majorThird, "B#4"],
    ["F##4", majorThird, "A##4"],
  ])("%s by %o is %s", (from, by, to) => {
    expect(pitchName(transpose(pitch(from), by))).toBe(to);
  });

  it("agrees with tonal for every note of three octaves and every named interval, up and down", () => {
    let compared = 0;
    for (let at = 3 * 7; at < 6 * 7; at++) {
      for (const alter of [-1, 0, 1]) {
        const p = { step: at % 7, alter, octave: Math.floor(at / 7) };
        for (const [name, interval] of NAMED) {
          expect(pitchName(transpose(p, interval))).toBe(Note.transpose(pitchName(p), name));
          expect(pitchName(transpose(p, opposite(interval)))).toBe(Note.transpose(pitchName(p), `-${name}`));
          compared++;
        }
      }
    }
    expect(compared).toBe(21 * 3 * 8);
  });

  it("there and back is the identity wherever the spelling survives, and always sounds the same", () => {
    fc.assert(
      fc.property(anyPitch, anyPitch, anyPitch, (p, from, to) => {
        const by = intervalBetween(from, to);
        const there = transpose(p, by);
        const back = transpose(there, opposite(by));
        expect(midiOf(there)).toBe(midiOf(p) + by.semitones);
        expect(midiOf(back)).toBe(midiOf(p));
        if (intervalBetween(p, there).steps === by.steps) expect(back).toEqual(p);
      }),
      FIXED,
    );
  });

  it("there and back is the identity for every interval a walk may take", () => {
    fc.assert(
      fc.property(
        anyPitch.filter((p) => Math.abs(p.alter) < 2),
        fc.constantFrom(...NAMED),
        fc.integer({ min: -2, max: 2 }),
        (p, [, interval], octaves) => {
          const by = byOctaves(interval, octaves);
          expect(transpose(transpose(p, by), opposite(by))).toEqual(p);
        },
      ),
      FIXED,
    );
  });

  it("takes the first pitch to the second", () => {
    fc.assert(
      fc.property(anyPitch, anyPitch, (from, to) => {
        expect(transpose(from, intervalBetween(from, to))).toEqual(to);
      }),
      FIXED,
    );
  });

  it("respells what would need a triple accidental", () => {
    expect(pitchName(transpose(pitch("F##4"), { steps: 1, semitones: 3 }))).toBe("A#4");
    expect(pitchName(transpose(pitch("Bbb4"), { steps: -1, semitones: -3 }))).toBe("Gb4");
  });
});

describe("in words", () => {
  test.each([
    ["C4", "C4", "the same note"],
    ["C4", "Db4", "a half step up"],
    ["C4", "C#4", "a chromatic half step up"],
    ["C4", "Cb4", "a chromatic half step down"],
    ["C4", "D4", "a whole step up"],
    ["C4", "A3", "a minor third down"],
    ["C4", "E4", "a major third up"],
    ["C4", "F4", "a fourth up"],
    ["C4", "F#4", "an augmented fourth up"],
    ["C4", "Gb4", "a diminished fifth up"],
    ["G4", "C4", "a fifth down"],
    ["C4", "A4", "a major sixth up"],
    ["C4", "Bb4", "a minor seventh up"],
    ["C4", "D#4", "an augmented second up"],
    ["B3", "Ab4", "a diminished seventh up"],
    ["C4", "C5", "an octave up"],
    ["C6", "C4", "two octaves down"],
    ["C4", "E5", "an octave and a major third up"],
    ["C5", "B3", "an octave and a half step down"],
    ["C4", "C#5", "an octave and a chromatic half step up"],
    ["C4", "E##4", "6 half steps up"],
    ["C4", "Gbb4", "5 half steps up"],
    ["C4", "Dbb4", "a diminished second up"],
    ["C2", "C7", "60 half steps up"],
    ["C#4", "Ebb4", "1 half step up"],
    ["C##4", "Ebb4", "0 half steps up"],
    ["C4", "B#3", "a diminished second down"],
  ])("%s to %s is %s", (from, to, words) => {
    expect(intervalName(intervalBetween(pitch(from), pitch(to)))).toBe(words);
  });
});
