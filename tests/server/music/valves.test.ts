import { describe, expect, it, test } from "vitest";
import { combinationCents, loweredCents } from "../../../server/music/combination.js";
import { findInstrument, INSTRUMENTS, type Instrument } from "../../../server/music/instrument.js";
import { partialCents, partialSemitones } from "../../../server/music/partial.js";
import { midiOf, parsePitch } from "../../../server/music/pitch.js";
import {
  type Combination,
  centsOf,
  combinations,
  commonCombination,
  fingering,
  liesOn,
  needsThirdSlide,
  partialMidi,
  partialsOf,
} from "../../../server/music/valves.js";

const trumpet = findInstrument("trumpet in Bb") as Instrument;

function midi(text: string): number {
  const read = parsePitch(text);
  if (read === undefined) throw new Error(`${text} is not a pitch`);
  return midiOf(read);
}

function valves(name: string): Combination {
  const found = combinations.find((combination) => combination.name === name);
  if (found === undefined) throw new Error(`no combination ${name}`);
  return found;
}

describe("partials", () => {
  // Derived (facts): 1200·log2 n − 100·round(12·log2 n).
  test.each([
    [2, 0],
    [3, 1.96],
    [4, 0],
    [5, -13.69],
    [6, 1.96],
    [7, -31.17],
    [8, 0],
    [9, 3.91],
    [10, -13.69],
    [11, -48.68],
    [12, 1.96],
    [16, 0],
  ])("partial %i is %d cents off", (partial, cents) => {
    expect(partialCents(partial)).toBeCloseTo(cents, 2);
  });

  // University brass pages (facts, "open slots").
  test.each([
    [2, "C4"],
    [3, "G4"],
    [4, "C5"],
    [5, "E5"],
    [6, "G5"],
    [7, "Bb5"],
    [8, "C6"],
  ])("open partial %i is %s", (partial, note) => {
    expect(partialMidi(partial, valves("0"), trumpet)).toBe(midi(note));
  });

  it("keeps the fundamental and the flat seventh out of use", () => {
    expect(trumpet.partials).toEqual([2, 3, 4, 5, 6, 8]);
  });

  it("carries a partial down the seven combinations by half steps", () => {
    const carried = combinations.map((combination) => partialMidi(3, combination, trumpet));
    expect(carried).toEqual([67, 66, 65, 64, 63, 62, 61]);
    expect(partialSemitones(1)).toBe(0);
  });
});

describe("valve combinations", () => {
  it("come in order, each a half step lower", () => {
    expect(combinations.map(({ name }) => name)).toEqual(["0", "2", "1", "12", "23", "13", "123"]);
    expect(combinations.map(({ semitones }) => semitones)).toEqual([0, 1, 2, 3, 4, 5, 6]);
  });

  it("press the valves they name", () => {
    for (const { name, valves: pressed } of combinations) expect(pressed.join("") || "0").toBe(name);
  });

  // Handbooks (facts, "valves"): 2nd −1, 1st −2, 3rd −3 half steps.
  test.each([
    [2, 100],
    [1, 200],
    [3, 300],
  ])("valve %i alone lowers %i cents", (valve, cents) => {
    expect(loweredCents([valve], "true alone")).toBeCloseTo(cents, 9);
  });

  // Derived (facts): 2^(k/12): +5.946 %, +12.246 %, +18.921 % of length.
  test.each([
    [2, 5.946],
    [1, 12.246],
    [3, 18.921],
  ])("valve %i adds %d %% of length", (valve, percent) => {
    expect(100 * (2 ** (loweredCents([valve], "true alone") / 1200) - 1)).toBeCloseTo(percent, 3);
  });

  // Derived (facts): 1200·log2 of summed lengths.
  test.each([
    ["12", 10.63],
    ["23", 15.53],
    ["13", 30.32],
    ["123", 53.56],
  ])("%s is %d cents too sharp", (name, cents) => {
    expect(combinationCents(valves(name), "true alone")).toBeCloseTo(cents, 2);
  });

  test.each(["0", "2", "1"])("%s is true", (name) => {
    expect(combinationCents(valves(name), "true alone")).toBeCloseTo(0, 9);
  });

  // Derived (facts): third valve cut so that 2+3 is true.
  it("moves the error when the third valve is cut to be true with the second", () => {
    expect(loweredCents([3], "true with second")).toBeCloseTo(316.3, 2);
    expect(combinationCents(valves("23"), "true with second")).toBeCloseTo(0, 9);
    expect(combinationCents(valves("13"), "true with second")).toBeCloseTo(15.53, 2);
    expect(combinationCents(valves("123"), "true with second")).toBeCloseTo(39.41, 2);
    expect(combinationCents(valves("12"), "true with second")).toBeCloseTo(10.63, 2);
  });
});

describe("predicted intonation", () => {
  // Derived (facts): the partial's error and the combination's, added.
  test.each([
    ["E5", -13.69],
    ["E4", 1.96 + 10.63],
    ["D4", 1.96 + 30.32],
    ["C#4", 1.96 + 53.56],
    ["G3", 30.32],
    ["C5", 0],
    ["D5", -13.69],
  ])("%s on its home fingering: %d cents", (note, cents) => {
    const home = fingering(midi(note), trumpet);
    expect(home && centsOf(home.partial, home.combination, trumpet)).toBeCloseTo(cents, 1);
  });

  it("follows the instrument's third valve unless told otherwise", () => {
    const cut: Instrument = { ...trumpet, thirdValve: "true with second" };
    expect(centsOf(2, valves("23"), cut)).toBeCloseTo(0, 9);
    expect(centsOf(2, valves("23"), trumpet)).toBeCloseTo(15.53, 2);
    expect(centsOf(2, valves("23"), trumpet, "true with second")).toBeCloseTo(0, 9);
  });
});

/**
 * The standard chart, in every method since Arban 1864; read from an encyclopedia's picture page (facts,
 * "fingering chart").
 */
const CHART =
  "F#3 123 · G3 13 · Ab3 23 · A3 12 · Bb3 1 · B3 2 · C4 0 · C#4 123 · D4 13 · Eb4 23 · E4 12 · F4 1 · F#4 2 · " +
  "G4 0 · Ab4 23 · A4 12 · Bb4 1 · B4 2 · C5 0 · C#5 12 · D5 1 · Eb5 2 · E5 0 · F5 1 · F#5 2 · G5 0 · Ab5 23 · " +
  "A5 12 · Bb5 1 · B5 2 · C6 0";

const chart = CHART.split(" · ").map((entry) => entry.split(" ") as [note: string, valves: string]);

describe("fingering", () => {
  it("has a chart of every half step from F♯3 to C6", () => {
    expect(chart.map(([note]) => midi(note))).toEqual(Array.from({ length: 31 }, (_, at) => 54 + at));
  });

  test.each(chart)("%s is %s on every instrument of the family", (note, name) => {
    for (const instrument of INSTRUMENTS) {
      expect(fingering(midi(note), instrument)?.combination.name).toBe(name);
    }
  });

  // Derived (facts, "fingering rule"): lowest partial of {2,3,4,5,6,8} at or above the note.
  it("uses the lowest partial at or above the note", () => {
    for (const [note] of chart) {
      const above = [2, 3, 4, 5, 6, 8].filter((n) => 48 + Math.round(12 * Math.log2(n)) >= midi(note));
      expect(fingering(midi(note), trumpet)?.partial, note).toBe(Math.min(...above));
    }
  });

  // Common practice, no source: above high C the valves repeat those an octave lower.
  test.each([
    ["C#6", "12"],
    ["D6", "1"],
    ["Eb6", "2"],
    ["E6", "0"],
  ])("%s, beyond the ordinary range, is %s on the tenth partial", (note, name) => {
    const home = fingering(midi(note), trumpet);
    expect([home?.combination.name, home?.partial]).toEqual([name, 10]);
  });

  test.each(["F3", "C3", "F6"])("%s is not on the trumpet", (note) => {
    expect(fingering(midi(note), trumpet)).toBeUndefined();
    expect(partialsOf(midi(note), trumpet)).toEqual([]);
  });

  // Derived (facts, partials and combinations): other ways to the same note.
  test.each([
    ["E5", "0/5 12/6"],
    ["D5", "1/5 13/6"],
    ["A5", "12/8"],
    ["C5", "0/4 23/5"],
    ["G4", "0/3 13/4"],
    ["G5", "0/6 13/8"],
    ["C4", "0/2"],
  ])("%s may be played %s, best first", (note, ways) => {
    const listed = partialsOf(midi(note), trumpet).map((way) => `${way.combination.name}/${way.partial}`);
    expect(listed.join(" ")).toBe(ways);
  });

  it("puts the home fingering first, and every way gives the note", () => {
    for (let note = 50; note <= 92; note++) {
      const ways = partialsOf(note, trumpet);
      expect(ways[0]).toEqual(fingering(note, trumpet));
      for (const way of ways) expect(partialMidi(way.partial, way.combination, trumpet)).toBe(note);
    }
  });

  // University tuning pages (facts, "third slide"): D4 and C♯4, also G3 and F♯3.
  it("asks for the third slide on those four notes alone", () => {
    const asking = chart.filter(([note]) => needsThirdSlide(midi(note), trumpet)).map(([note]) => note);
    expect(asking).toEqual(["F#3", "G3", "C#4", "D4"]);
    expect(needsThirdSlide(midi("C3"), trumpet)).toBe(false);
  });
});

// Derived (facts, "lip slur"): every set of notes on one combination's partials {2,3,4,5,6,8}.
describe("lip slurs", () => {
  test.each([
    ["C4 G4 C5 E5 G5 C6", "0"],
    ["B3 F#4 B4", "2"],
    ["G4 C5", "0"],
    ["F#3 C#4 F#4", "123"],
    ["G4", "0 13"],
    ["E5", "0 12"],
    ["C5 E5", "0"],
    ["C4 D4", ""],
    ["C5 Bb5", ""],
    ["C6 E6", "0"],
    ["", "0 2 1 12 23 13 123"],
  ])("%j lies on %j", (notes, names) => {
    const midis = notes === "" ? [] : notes.split(" ").map(midi);
    expect(
      commonCombination(midis, trumpet)
        .map(({ name }) => name)
        .join(" "),
    ).toBe(names);
  });

  it("finds for each combination exactly its own partials", () => {
    for (const combination of combinations) {
      const own = trumpet.partials.map((partial) => partialMidi(partial, combination, trumpet));
      expect(commonCombination(own, trumpet)).toContain(combination);
      for (let note = 54; note <= 84; note++) {
        expect(liesOn(note, combination, trumpet)).toBe(own.includes(note));
      }
    }
  });
});

describe("other brass", () => {
  // The shape must take a slide: seven positions, no valve error, the seventh partial usable, bass clef.
  const trombone: Instrument = {
    ...trumpet,
    id: "trombone",
    name: "trombone",
    text: "trombone",
    family: "trombone",
    clef: "bass",
    transposition: { steps: 0, semitones: 0 },
    openFundamental: midi("Bb1"),
    partials: [2, 3, 4, 5, 6, 7, 8],
    highPartials: [9, 10],
    combinations: [0, 1, 2, 3, 4, 5, 6].map((semitones) => ({
      name: `${semitones + 1}`,
      semitones,
      valves: [],
    })),
  };

  // Common practice, no source: the slide positions every beginner's chart gives.
  test.each([
    ["Bb2", "1"],
    ["A2", "2"],
    ["E2", "7"],
    ["F3", "1"],
    ["C3", "6"],
    ["Bb3", "1"],
    ["D4", "1"],
  ])("%s on the trombone is position %s", (note, position) => {
    const home = fingering(midi(note), trombone);
    expect(home?.combination.name).toBe(position);
    expect(home && combinationCents(home.combination, trombone.thirdValve)).toBe(0);
    expect(needsThirdSlide(midi(note), trombone)).toBe(false);
  });

  // A fourth valve lowers a fourth: with it a euphonium closes the gap under the second partial.
  it("takes a fourth valve", () => {
    const fourValves: Instrument = {
      ...trumpet,
      combinations: [
        ...combinations.filter(({ name }) => name !== "13" && name !== "123"),
        { name: "4", semitones: 5, valves: [4] },
        { name: "24", semitones: 6, valves: [2, 4] },
        { name: "14", semitones: 7, valves: [1, 4] },
      ],
    };
    expect(fingering(midi("G3"), fourValves)?.combination.name).toBe("4");
    expect(fingering(midi("F3"), fourValves)?.combination.name).toBe("14");
    const low = fingering(midi("G3"), fourValves);
    expect(low && centsOf(low.partial, low.combination, fourValves)).toBeCloseTo(0, 9);
    expect(needsThirdSlide(midi("G3"), fourValves)).toBe(false);
  });
});
