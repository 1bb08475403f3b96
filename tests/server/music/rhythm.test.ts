import fc from "fast-check";
import { DurationValue } from "tonal";
import { describe, expect, it, test } from "vitest";
import {
  add,
  compare,
  divide,
  equals,
  type Fraction,
  fraction,
  fractionText,
  inTuplet,
  MOST_DOTS,
  multiply,
  NOTE_VALUES,
  notesPerSecond,
  noteValue,
  ONE,
  seconds,
  subtract,
  toNumber,
  valueFromName,
  valueName,
  valuesName,
  ZERO,
} from "../../../server/music/rhythm.js";
import { anyFraction } from "./arbitrary.js";
import { FIXED } from "./fixed-seed.js";

describe("fractions", () => {
  it("are kept in lowest terms, sign above", () => {
    expect(fraction(6, 8)).toEqual({ num: 3, den: 4 });
    expect(fraction(3, -6)).toEqual({ num: -1, den: 2 });
    expect(fraction(0, -5)).toEqual({ num: 0, den: 1 });
    expect(Object.is(fraction(0, -5).num, 0)).toBe(true);
    expect(fractionText(fraction(4, 4))).toBe("1/1");
    expect(toNumber(fraction(3, 8))).toBe(0.375);
  });

  it("refuse a zero denominator, parts and division by zero", () => {
    expect(() => fraction(1, 0)).toThrow(RangeError);
    expect(() => fraction(0.5, 1)).toThrow(RangeError);
    expect(() => fraction(1, Number.NaN)).toThrow(RangeError);
    expect(() => divide(ONE, ZERO)).toThrow(RangeError);
  });

  it("refuse to overflow silently", () => {
    const huge = fraction(Number.MAX_SAFE_INTEGER, 1);
    const tiny = fraction(1, Number.MAX_SAFE_INTEGER);
    expect(() => fraction(2 ** 53, 1)).toThrow(RangeError);
    expect(() => add(huge, ONE)).toThrow(RangeError);
    expect(() => multiply(huge, fraction(2, 1))).toThrow(RangeError);
    expect(() => add(tiny, fraction(1, Number.MAX_SAFE_INTEGER - 1))).toThrow(RangeError);
    expect(() => compare(huge, fraction(1, 2))).toThrow(RangeError);
    // What fits after cancelling is not refused.
    expect(multiply(huge, tiny)).toEqual(ONE);
  });

  it("obey the laws of arithmetic", () => {
    fc.assert(
      fc.property(anyFraction, anyFraction, anyFraction, (a, b, c) => {
        expect(add(a, b)).toEqual(add(b, a));
        expect(multiply(a, b)).toEqual(multiply(b, a));
        expect(add(add(a, b), c)).toEqual(add(a, add(b, c)));
        expect(multiply(multiply(a, b), c)).toEqual(multiply(a, multiply(b, c)));
        expect(multiply(a, add(b, c))).toEqual(add(multiply(a, b), multiply(a, c)));
        expect(add(a, ZERO)).toEqual(a);
        expect(multiply(a, ONE)).toEqual(a);
        expect(subtract(a, a)).toEqual(ZERO);
        expect(add(subtract(a, b), b)).toEqual(a);
        if (b.num !== 0) expect(multiply(divide(a, b), b)).toEqual(a);
      }),
      FIXED,
    );
  });

  it("stay reduced, and compare as numbers do", () => {
    const reduced = ({ num, den }: Fraction) => fraction(num, den).den === den && den > 0;
    fc.assert(
      fc.property(anyFraction, anyFraction, (a, b) => {
        for (const result of [add(a, b), subtract(a, b), multiply(a, b)]) expect(reduced(result)).toBe(true);
        expect(Math.sign(compare(a, b))).toBe(Math.sign(toNumber(a) - toNumber(b)));
        expect(equals(a, b)).toBe(compare(a, b) === 0);
        expect(toNumber(add(a, b))).toBeCloseTo(toNumber(a) + toNumber(b), 9);
        expect(toNumber(multiply(a, b))).toBeCloseTo(toNumber(a) * toNumber(b), 6);
      }),
      FIXED,
    );
  });
});

describe("note values", () => {
  test.each([
    [4, 0, "1/4"],
    [4, 1, "3/8"],
    [2, 2, "7/8"],
    [8, 3, "15/64"],
    [1, 0, "1/1"],
    [64, 1, "3/128"],
  ])("1/%i with %i dots", (base, dots, text) => {
    expect(fractionText(noteValue(base, dots))).toBe(text);
  });

  // By full name, American and British: tonal's letters are not unambiguous.
  it("agree with tonal in length and in name, dotted or not", () => {
    const american = NOTE_VALUES.map((base) => valueName(noteValue(base)));
    const british = ["semibreve", "minim", "crotchet", "quaver", "semiquaver", "demisemiquaver"];
    british.push("hemidemisemiquaver");
    for (const names of [american, british]) {
      for (const [at, base] of NOTE_VALUES.entries()) {
        expect(valueFromName(names[at] ?? "")).toEqual(noteValue(base));
        for (let dots = 0; dots <= MOST_DOTS; dots++) {
          const oracle = DurationValue.get(`${names[at]}${".".repeat(dots)}`);
          expect(toNumber(noteValue(base, dots))).toBe(oracle.value);
        }
      }
    }
  });

  test.each([
    [3, 0],
    [0, 0],
    [128, 0],
    [4, 4],
    [4, -1],
    [4, 0.5],
  ])("there is no 1/%d note with %d dots", (base, dots) => {
    expect(() => noteValue(base, dots)).toThrow(RangeError);
  });

  it("share out tuplets exactly", () => {
    const triplet = inTuplet(noteValue(8), 3, 2);
    expect(triplet).toEqual({ num: 1, den: 12 });
    expect(add(add(triplet, triplet), triplet)).toEqual(noteValue(4));
    expect(multiply(inTuplet(noteValue(16), 5, 4), fraction(5, 1))).toEqual(noteValue(4));
    expect(inTuplet(noteValue(8), 1, 1)).toEqual(noteValue(8));
    expect(() => inTuplet(noteValue(8), 0, 2)).toThrow(RangeError);
    expect(() => inTuplet(noteValue(8), 3, 0)).toThrow(RangeError);
  });
});

describe("note values in words", () => {
  test.each([
    [noteValue(1), "whole", "whole notes"],
    [noteValue(2, 1), "dotted half", "dotted half notes"],
    [noteValue(4), "quarter", "quarters"],
    [noteValue(4, 1), "dotted quarter", "dotted quarters"],
    [noteValue(4, 2), "double-dotted quarter", "double-dotted quarters"],
    [noteValue(8, 3), "triple-dotted eighth", "triple-dotted eighths"],
    [noteValue(16), "sixteenth", "sixteenths"],
    [noteValue(32), "thirty-second", "thirty-seconds"],
    [noteValue(64), "sixty-fourth", "sixty-fourths"],
    [fraction(1, 12), "triplet eighth", "triplet eighths"],
    [fraction(1, 6), "triplet quarter", "triplet quarters"],
    [fraction(5, 8), "5/8", "5/8"],
  ])("%o is %s", (value, one, many) => {
    expect([valueName(value), valuesName(value)]).toEqual([one, many]);
  });

  test.each([
    ["quarter", "1/4"],
    ["quarters", "1/4"],
    ["quarter note", "1/4"],
    ["half notes", "1/2"],
    ["halves", "1/2"],
    ["whole-note", "1/1"],
    ["dotted quarter", "3/8"],
    ["double-dotted half", "7/8"],
    ["triplet eighths", "1/12"],
    ["sixteenths", "1/16"],
    ["thirty-second notes", "1/32"],
    ["semibreve", "1/1"],
    ["minims", "1/2"],
    ["crotchet", "1/4"],
    ["dotted crotchets", "3/8"],
    ["quavers", "1/8"],
    ["semiquavers", "1/16"],
    ["demisemiquaver", "1/32"],
    ["hemidemisemiquavers", "1/64"],
  ])("%s is %s", (words, text) => {
    const value = valueFromName(words);
    expect(value && fractionText(value)).toBe(text);
  });

  test.each([
    "",
    "note",
    "dotted",
    "h",
    "constructor",
    "quarterjunk",
    "dotted dotted quarter",
    "quarter rest",
  ])("%j is no note value", (words) => {
    expect(valueFromName(words)).toBeUndefined();
  });

  it("reads back every name it gives", () => {
    for (const base of NOTE_VALUES) {
      for (let dots = 0; dots <= MOST_DOTS; dots++) {
        const value = noteValue(base, dots);
        expect(valueFromName(valuesName(value)), valuesName(value)).toEqual(value);
        expect(valueFromName(valueName(value)), valueName(value)).toEqual(value);
      }
      const triplet = inTuplet(noteValue(base), 3, 2);
      expect(valueFromName(valueName(triplet))).toEqual(triplet);
    }
  });
});

describe("durations at metronome marks", () => {
  // Derived (design §4): seconds = (value ÷ the tempo's note value) × 60 ÷ bpm.
  test.each([
    [noteValue(4), noteValue(4), 60, 1],
    [noteValue(4), noteValue(4), 120, 0.5],
    [noteValue(1), noteValue(2), 50, 2.4],
    [noteValue(2), noteValue(2), 50, 1.2],
    [noteValue(8), noteValue(4), 72, 0.416_667],
    [noteValue(4), noteValue(4, 1), 60, 0.666_667],
    [noteValue(4, 1), noteValue(4, 1), 60, 1],
    [inTuplet(noteValue(8), 3, 2), noteValue(4), 100, 0.2],
  ])("%o where %o = %i lasts %d s", (value, beat, bpm, expected) => {
    expect(seconds(value, beat, bpm)).toBeCloseTo(expected, 6);
  });

  // Derived (facts, "sixteenths per second": bpm·4/60).
  test.each([
    [60, 4],
    [96, 6.4],
    [120, 8],
    [132, 8.8],
    [144, 9.6],
  ])("sixteenths at %i pass at %d a second", (bpm, expected) => {
    expect(notesPerSecond(noteValue(16), noteValue(4), bpm)).toBeCloseTo(expected, 12);
  });

  // Standard MIDI Files 1.0 (RP-001), "Set Tempo": microseconds per quarter.
  test.each([
    [120, 500_000],
    [60, 1_000_000],
    [72, 833_333],
    [96, 625_000],
    [132, 454_545],
    [144, 416_667],
  ])("a quarter at %i lasts %i µs", (bpm, microseconds) => {
    expect(Math.round(1e6 * seconds(noteValue(4), noteValue(4), bpm))).toBe(microseconds);
  });

  // W3C MusicXML 4.0, sound@tempo: quarters per minute; dotted quarter = 60 is 90.
  it("dotted quarter = 60 is 90 quarters a minute", () => {
    expect(60 * notesPerSecond(noteValue(4), noteValue(4, 1), 60)).toBeCloseTo(90, 12);
  });
});
