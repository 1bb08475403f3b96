import { describe, expect, it, test } from "vitest";
import {
  findInstrument,
  INSTRUMENTS,
  type Instrument,
  instrumentNames,
} from "../../../server/music/instrument.js";
import { type Interval, intervalBetween, transpose } from "../../../server/music/interval.js";
import { parseTonic } from "../../../server/music/key.js";
import { midiOf, parsePitch, pitchName } from "../../../server/music/pitch.js";

function found(words: string): Instrument {
  const instrument = findInstrument(words);
  if (instrument === undefined) throw new Error(`no ${words}`);
  return instrument;
}

describe("finding an instrument", () => {
  test.each([
    ["trumpet in Bb", "trumpet-bflat"],
    ["trumpet in B♭", "trumpet-bflat"],
    ["trumpet in B flat", "trumpet-bflat"],
    ["B-flat trumpet", "trumpet-bflat"],
    ["Bb trumpet", "trumpet-bflat"],
    ["trumpet", "trumpet-bflat"],
    ["Trumpet  in C", "trumpet-c"],
    ["trumpet in Eb", "trumpet-eflat"],
    ["trumpet in D", "trumpet-d"],
    ["piccolo trumpet in A", "piccolo-trumpet-a"],
    ["piccolo trumpet", "piccolo-trumpet-bflat"],
    ["cornet", "cornet-bflat"],
    ["cornet in E♭", "cornet-eflat"],
    ["flugelhorn", "flugelhorn-bflat"],
    ["flugelhorn in B♭", "flugelhorn-bflat"],
  ])("%s", (words, id) => {
    expect(findInstrument(words)?.id).toBe(id);
  });

  test.each(["", "trumpet in", "trumpet in G", "kazoo", "constructor", "__proto__", "toString"])(
    "%j is none",
    (words) => {
      expect(findInstrument(words)).toBeUndefined();
    },
  );

  it("finds each by its typed name and its printed one", () => {
    for (const instrument of INSTRUMENTS) {
      expect(findInstrument(instrument.text)).toBe(instrument);
      expect(findInstrument(instrument.name)).toBe(instrument);
    }
    expect(instrumentNames()).toEqual(INSTRUMENTS.map((instrument) => instrument.text));
  });
});

describe("the table", () => {
  it("has no id twice, and names made of its own parts", () => {
    expect(new Set(INSTRUMENTS.map((instrument) => instrument.id)).size).toBe(INSTRUMENTS.length);
    for (const { name, text, family, builtIn } of INSTRUMENTS) {
      expect(text).toBe(`${family} in ${builtIn}`);
      expect(name).toBe(text.replace(/b$/, "♭"));
    }
  });

  it("sounds the note it is named after where C is written", () => {
    for (const { builtIn, transposition, text } of INSTRUMENTS) {
      const sounding = transpose({ step: 0, alter: 0, octave: 5 }, transposition);
      expect({ step: sounding.step, alter: sounding.alter }, text).toEqual(parseTonic(builtIn));
    }
  });

  it("keeps its notes in order", () => {
    for (const { lowest, home, highest, exceptional, partials, text } of INSTRUMENTS) {
      const order = [lowest, home, highest, exceptional].map(midiOf);
      expect(
        [...order].sort((a, b) => a - b),
        text,
      ).toEqual(order);
      expect(
        [...partials].sort((a, b) => a - b),
        text,
      ).toEqual(partials);
    }
  });

  // W3C MusicXML 4.0: transpose diatonic −1, chromatic −2; sound brass.trumpet.bflat.
  // General MIDI Level 1: trumpet is program 57 counted from 1.
  it("has the B♭ trumpet as the standards do", () => {
    const trumpet = found("trumpet in Bb");
    expect(trumpet.transposition).toEqual({ steps: -1, semitones: -2 });
    expect(trumpet.soundId).toBe("brass.trumpet.bflat");
    expect(trumpet.midiProgram).toBe(57);
  });

  // Instruments of the Modern Symphony Orchestra, p. 40: written F♯3–C6 (E6 exceptional).
  it("has the B♭ trumpet's range from the handbook", () => {
    const trumpet = found("trumpet in Bb");
    expect([trumpet.lowest, trumpet.highest, trumpet.exceptional].map(pitchName)).toEqual([
      "F#3",
      "C6",
      "E6",
    ]);
  });

  // Design §4 (a definition, not a fact): the home note of the trumpet is written G4.
  it("starts the trumpet's day on second-line G", () => {
    expect(pitchName(found("trumpet in Bb").home)).toBe("G4");
  });

  // Common practice, no source: what C5 sounds on each.
  test.each([
    ["trumpet in C", "C5"],
    ["trumpet in D", "D5"],
    ["trumpet in Eb", "Eb5"],
    ["piccolo trumpet in A", "A5"],
    ["piccolo trumpet in Bb", "Bb5"],
    ["cornet in Bb", "Bb4"],
    ["cornet in Eb", "Eb5"],
    ["flugelhorn in Bb", "Bb4"],
  ])("written C5 on the %s sounds %s", (words, sounding) => {
    const written = { step: 0, alter: 0, octave: 5 };
    const by: Interval = found(words).transposition;
    expect(pitchName(transpose(written, by))).toBe(sounding);
    const expected = parsePitch(sounding);
    expect(expected && intervalBetween(written, expected)).toEqual(by);
  });
});
