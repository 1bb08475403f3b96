import { describe, expect, it, test } from "vitest";
import {
  DYNAMIC_STEP,
  DYNAMICS,
  decibels,
  isDynamic,
  pressureFactor,
} from "../../../server/music/loudness.js";

describe("dynamic marks", () => {
  // Common practice, no source: five decibels from mark to mark, a setting.
  it("are level at mezzo-forte and five decibels apart", () => {
    expect(DYNAMIC_STEP).toBe(5);
    expect(DYNAMICS.map((mark) => decibels(mark))).toEqual([-20, -15, -10, -5, 0, 5, 10, 15]);
  });

  it("take the studio's own step", () => {
    expect(decibels("ff", 6)).toBe(12);
    expect(decibels("p", 3)).toBe(-6);
  });

  it("are the eight marks and no others", () => {
    for (const mark of DYNAMICS) expect(isDynamic(mark)).toBe(true);
    for (const word of ["", "m", "ffff", "MF", "constructor"]) expect(isDynamic(word)).toBe(false);
  });
});

describe("blowing pressure", () => {
  // Fletcher & Tarnopolsky 1999, J. Acoust. Soc. Am. 105(2):874–881: 15 dB per doubling; figures derived.
  test.each([
    [0, 1],
    [6, 1.3195],
    [10, 1.5874],
    [15, 2],
    [-15, 0.5],
  ])("%i dB up takes %d times the pressure", (level, factor) => {
    expect(pressureFactor(level)).toBeCloseTo(factor, 4);
  });
});
