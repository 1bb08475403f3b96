import tonejs from "@tonejs/midi";
import fc from "fast-check";
import { Note } from "tonal";
import { describe, expect, it, test } from "vitest";
import {
  alterSign,
  alterText,
  midiOf,
  noteSign,
  parseAlter,
  parsePitch,
  pitchFromMidi,
  pitchName,
  pitchOn,
  pitchSign,
  spokenPitch,
  staffPosition,
  stepOf,
} from "../../../server/music/pitch.js";
import { anyPitch } from "./arbitrary.js";
import { FIXED } from "./fixed-seed.js";

function pitch(text: string) {
  const read = parsePitch(text);
  if (read === undefined) throw new Error(`${text} is not a pitch`);
  return read;
}

describe("reading a pitch", () => {
  test.each([
    ["C4", { step: 0, alter: 0, octave: 4 }],
    ["F#3", { step: 3, alter: 1, octave: 3 }],
    ["F♯3", { step: 3, alter: 1, octave: 3 }],
    ["Bb5", { step: 6, alter: -1, octave: 5 }],
    ["B♭5", { step: 6, alter: -1, octave: 5 }],
    ["Gbb4", { step: 4, alter: -2, octave: 4 }],
    ["G♭♭4", { step: 4, alter: -2, octave: 4 }],
    ["F##4", { step: 3, alter: 2, octave: 4 }],
    ["E♮4", { step: 2, alter: 0, octave: 4 }],
    ["A-1", { step: 5, alter: 0, octave: -1 }],
    ["G9", { step: 4, alter: 0, octave: 9 }],
  ])("%s", (text, expected) => {
    expect(parsePitch(text)).toEqual(expected);
  });

  test.each([
    "",
    "C",
    "b4",
    "c4",
    "H4",
    "C10",
    "C-2",
    "C4 ",
    " C4",
    "C4junk",
    "C#b4",
    "Cb#4",
    "C###4",
    "Cbbb4",
    "C♮♮4",
    "4C",
    "constructor",
    "C٤",
    "C4\n",
    "Cx4",
  ])("%j is no pitch", (text) => {
    expect(parsePitch(text)).toBeUndefined();
  });

  it("reads back what it prints, typed or with signs", () => {
    fc.assert(
      fc.property(anyPitch, (p) => {
        expect(parsePitch(pitchName(p))).toEqual(p);
        expect(parsePitch(pitchSign(p))).toEqual(p);
        expect(pitchName(p)).toMatch(/^[\x20-\x7e]+$/);
      }),
      FIXED,
    );
  });

  it("takes no text that it would print otherwise", () => {
    fc.assert(
      fc.property(fc.string({ unit: fc.constantFrom(..."CGBb#♭♯♮4-19x "), maxLength: 5 }), (text) => {
        const read = parsePitch(text);
        if (read === undefined) return;
        expect(pitchSign(read)).toBe(text.replaceAll("#", "♯").replaceAll("b", "♭").replace("♮", ""));
      }),
      { ...FIXED, numRuns: 5000 },
    );
  });
});

describe("printing a pitch", () => {
  test.each([
    ["F#3", "F#3", "F♯3", "F♯"],
    ["B♭5", "Bb5", "B♭5", "B♭"],
    ["E♮4", "E4", "E4", "E"],
    ["F##4", "F##4", "F♯♯4", "F♯♯"],
    ["Gbb4", "Gbb4", "G♭♭4", "G♭♭"],
  ])("%s", (text, typed, printed, note) => {
    expect([pitchName(pitch(text)), pitchSign(pitch(text)), noteSign(pitch(text))]).toEqual([
      typed,
      printed,
      note,
    ]);
  });

  it("reads back each accidental", () => {
    for (const alter of [-2, -1, 0, 1, 2]) {
      expect(parseAlter(alterText(alter))).toBe(alter);
      expect(parseAlter(alterSign(alter))).toBe(alter);
    }
    expect(parseAlter("###")).toBeUndefined();
  });

  it("knows the seven letters and no other", () => {
    expect(["C", "D", "E", "F", "G", "A", "B"].map(stepOf)).toEqual([0, 1, 2, 3, 4, 5, 6]);
    expect(["", "H", "c", "CD"].map(stepOf)).toEqual([undefined, undefined, undefined, undefined]);
  });
});

describe("MIDI numbers", () => {
  it("puts C4 at 60 (derived: facts, equal temperament)", () => {
    expect(midiOf(pitch("C4"))).toBe(60);
    expect(midiOf(pitch("A4"))).toBe(69);
  });

  it("agrees with tonal on every pitch it can spell", () => {
    for (let octave = -1; octave <= 9; octave++) {
      for (let step = 0; step < 7; step++) {
        for (let alter = -2; alter <= 2; alter++) {
          const p = { step, alter, octave };
          expect(midiOf(p), pitchName(p)).toBe(Note.get(pitchName(p)).height);
        }
      }
    }
  });

  it("agrees with a second library, @tonejs/midi, both ways over all 128 notes", () => {
    const track = new tonejs.Midi().addTrack();
    for (let midi = 0; midi < 128; midi++) {
      const name = pitchName(pitchFromMidi(midi, false));
      track.addNote({ midi, time: midi, duration: 1 });
      expect(track.notes[midi]?.name).toBe(name);
    }
    for (let midi = 12; midi < 128; midi++) {
      const name = pitchName(pitchFromMidi(midi, true));
      track.addNote({ name, time: 200 + midi, duration: 1 });
      expect(track.notes[track.notes.length - 1]?.midi, name).toBe(midi);
    }
  });

  it("spells black keys as asked", () => {
    expect(pitchName(pitchFromMidi(61, true))).toBe("Db4");
    expect(pitchName(pitchFromMidi(61, false))).toBe("C#4");
    expect(pitchName(pitchFromMidi(70, true))).toBe("Bb4");
    expect(pitchName(pitchFromMidi(59, true))).toBe("B3");
  });

  it("spells every number as tonal does", () => {
    for (let midi = 0; midi < 128; midi++) {
      expect(pitchName(pitchFromMidi(midi, true))).toBe(Note.fromMidi(midi));
      expect(pitchName(pitchFromMidi(midi, false))).toBe(Note.fromMidiSharps(midi));
    }
  });
});

describe("a note on a given line or space", () => {
  it("comes back from its own place and number", () => {
    fc.assert(
      fc.property(anyPitch, (p) => {
        expect(pitchOn(staffPosition(p), midiOf(p))).toEqual(p);
      }),
      FIXED,
    );
  });

  it("is respelled plainly beyond a double accidental", () => {
    expect(pitchName(pitchOn(staffPosition(pitch("F4")), midiOf(pitch("G#4"))))).toBe("G#4");
    expect(pitchName(pitchOn(staffPosition(pitch("B4")), midiOf(pitch("Ab4"))))).toBe("Ab4");
    expect(pitchName(pitchOn(staffPosition(pitch("B3")), midiOf(pitch("D4"))))).toBe("D4");
  });
});

// Common practice, no source: how brass players say the notes of the treble staff.
describe("in a player's words", () => {
  test.each([
    ["F#3", "low F♯"],
    ["Gb3", "low G♭"],
    ["G3", "low G"],
    ["Bb3", "low B♭"],
    ["C4", "low C"],
    ["D4", "low D"],
    ["E4", "first-line E"],
    ["E#4", "first-line E♯"],
    ["F4", "first-space F"],
    ["G4", "second-line G"],
    ["A4", "second-space A"],
    ["Bb4", "third-line B♭"],
    ["C5", "third-space C"],
    ["D5", "fourth-line D"],
    ["E5", "top-space E"],
    ["F5", "top-line F"],
    ["G5", "G on top of the staff"],
    ["Ab5", "A♭ above the staff"],
    ["Bb5", "high B♭"],
    ["C6", "high C"],
    ["F6", "high F"],
  ])("%s is %s", (text, words) => {
    expect(spokenPitch(pitch(text))).toBe(words);
  });

  test.each([
    ["F3", "F3"],
    ["C3", "C3"],
    ["Bb2", "B♭2"],
    ["F#6", "F♯6"],
    ["G6", "G6"],
  ])("%s has no words and stays %s", (text, sign) => {
    expect(spokenPitch(pitch(text))).toBe(sign);
  });
});
