import { Interval, Note } from "tonal";
import { describe, expect, test } from "vitest";
import type { Placement } from "../../../server/days/placement";
import { type Key, tonicAt } from "../../../server/music/key";
import { midiOf, pitchName } from "../../../server/music/pitch";
import { partialMidi } from "../../../server/music/valves";
import type { Sheet } from "../../../server/notation/sheet";
import { STARTING_SETTINGS } from "../../../server/plan/settings";
import { profileOf } from "../../../server/profile/profile";
import {
  EXERCISES,
  everyPlacement,
  instrumentOf,
  notesOf,
  sample,
  sheetOf,
  sheetOfMusic,
  TRUMPET,
} from "./samples";

const keyed = EXERCISES.filter((each) => each.content.kind === "notes" && each.content.key !== undefined);
const byPartials = EXERCISES.filter(
  (each) => each.content.kind === "notes" && each.content.by === "partials",
);

function at(key: Key, semitones: number, mode?: Placement["mode"]): Placement {
  return { semitones, key, combination: undefined, mode };
}

function notes(sheet: Sheet) {
  return sheet.bars.flatMap((bar) => bar.events).filter((event) => event.kind === "note");
}

/** A tonic in the octave that lies so many half steps from C4 … B4. */
function tonicNote(key: Key, octave: number): string {
  return pitchName({ step: key.step, alter: key.alter, octave });
}

describe("carried into another key, notes agree with tonal", () => {
  test.each(keyed.map((each) => [each.name, each] as const))("%s", (_, exercise) => {
    const { content } = exercise;
    if (content.kind !== "notes" || content.key === undefined) throw new Error("not written in a key");
    const home = notes(sheetOf(exercise, { cells: 1 })).map((note) => pitchName(note.pitch));
    for (const placement of everyPlacement(exercise)) {
      const key = placement.key ?? content.key;
      // The octave in which the new tonic lies as many half steps away as the placement says.
      const octave = [3, 4, 5].find(
        (each) =>
          Number(Note.midi(tonicNote(key, each))) - Number(Note.midi(tonicNote(content.key as Key, 4))) ===
          placement.semitones,
      );
      if (octave === undefined) throw new Error(`no octave of ${tonicNote(key, 4)} lies so far away`);
      const interval = Interval.distance(tonicNote(content.key, 4), tonicNote(key, octave));
      expect(interval).toMatch(/^-?\d+[PMmAd]$|^[PMmAd]-?\d+$/);
      const moved = notes(sheetOf(exercise, { placements: [placement], cells: 1 })).map((note) =>
        pitchName(note.pitch),
      );
      expect(moved).toEqual(home.map((note) => Note.transpose(note, interval)));
    }
  });
});

/**
 * The first strain of Greensleeves in A, C and F sharp minor, spelled out by hand. The tune is traditional,
 * written down from memory; no printing was at hand.
 */
const GREENSLEEVES = {
  A: `A4 C5 D5 E5 F#5 E5 D5 B4 G4 A4 B4 C5 A4 A4 G#4 A4 B4 G#4 E4
      A4 C5 D5 E5 F#5 E5 D5 B4 G4 A4 B4 C5 B4 A4 G#4 F#4 G#4 A4`,
  C: `C5 Eb5 F5 G5 A5 G5 F5 D5 Bb4 C5 D5 Eb5 C5 C5 B4 C5 D5 B4 G4
      C5 Eb5 F5 G5 A5 G5 F5 D5 Bb4 C5 D5 Eb5 D5 C5 B4 A4 B4 C5`,
  "F#": `F#4 A4 B4 C#5 D#5 C#5 B4 G#4 E4 F#4 G#4 A4 F#4 F#4 E#4 F#4 G#4 E#4 C#4
      F#4 A4 B4 C#5 D#5 C#5 B4 G#4 E4 F#4 G#4 A4 G#4 F#4 E#4 D#4 E#4 F#4`,
};

describe("a tune spelled out by hand", () => {
  const exercise = sample("Greensleeves");
  test.each([
    ["A", { step: 5, alter: 0 }, 0],
    ["C", { step: 0, alter: 0 }, 3],
    ["F#", { step: 3, alter: 1 }, -3],
  ] as const)("Greensleeves in %s minor", (name, tonic, semitones) => {
    const sheet = sheetOf(exercise, { placements: [at({ ...tonic, mode: "melodic minor" }, semitones)] });
    const wanted = GREENSLEEVES[name].split(/\s+/);
    expect(notesOf(sheet).split(" ").slice(0, wanted.length)).toEqual(wanted);
  });
});

describe("spelling", () => {
  test("a key of more than seven accidentals is respelled, and its notes with it", () => {
    // Eight sharps: G sharp major is written as A flat.
    const sheet = sheetOfMusic("1/4 C4 E4 G4 B4 |", "", {
      placements: [at({ step: 4, alter: 1, mode: "major" }, -4)],
    });
    expect(notesOf(sheet)).toBe("Ab3 C4 Eb4 G4");
    expect(sheet.bars[0]?.key).toEqual({ step: 5, alter: -1, mode: "major" });
  });

  test("so is a key change inside, in the middle of the exercise", () => {
    // B major up to its own mediant, D sharp: nine sharps, so E flat.
    const sheet = sheetOfMusic("1/2 C4 G4 | key E major E4 G#4 |", "", {
      placements: [at({ step: 6, alter: 0, mode: "major" }, -1)],
    });
    expect(notesOf(sheet)).toBe("B3 F#4 Eb4 G4");
  });

  test("degrees in another mode take its notes", () => {
    const sheet = sheetOfMusic("degrees from C4 { 1/4 1 2 3 4 | 5 6 7 8 | }", "", {
      placements: [at({ step: 5, alter: 0, mode: "harmonic minor" }, -3, "harmonic minor")],
    });
    expect(notesOf(sheet)).toBe("A3 B3 C4 D4 E4 F4 G#4 A4");
  });

  test("partials are spelled by the key of their combination", () => {
    const sheet = sheetOfMusic("partials { 1/4 2 3 4 5 | 6 8 1/2 2 | }");
    const lines = notesOf(sheet).split(" ");
    expect(lines.length).toBe(7 * 7);
    const line = (n: number) => lines.slice(7 * n, 7 * n + 6).join(" ");
    // The standard fingering chart, read by combination.
    expect(line(0)).toBe("C4 G4 C5 E5 G5 C6");
    expect(line(1)).toBe("B3 F#4 B4 D#5 F#5 B5");
    expect(line(2)).toBe("Bb3 F4 Bb4 D5 F5 Bb5");
    expect(line(3)).toBe("A3 E4 A4 C#5 E5 A5");
    expect(line(4)).toBe("Ab3 Eb4 Ab4 C5 Eb5 Ab5");
    expect(line(5)).toBe("G3 D4 G4 B4 D5 G5");
    expect(line(6)).toBe("F#3 C#4 F#4 A#4 C#5 F#5");
    expect(sheet.bars.map((bar) => bar.opens).filter((name) => name !== undefined)).toEqual([
      "open",
      "valves 2",
      "valves 1",
      "valves 12",
      "valves 23",
      "valves 13",
      "valves 123",
    ]);
  });

  test("partials sound what the valves say", () => {
    for (const exercise of byPartials) {
      for (const placement of everyPlacement(exercise)) {
        const { combination } = placement;
        if (combination === undefined) throw new Error("no combination");
        for (const note of notes(sheetOf(exercise, { placements: [placement], cells: 1 }))) {
          expect(midiOf(note.pitch)).toBe(partialMidi(note.partial ?? 0, combination, TRUMPET));
          expect(note.fingered).toBe(combination);
        }
      }
    }
  });

  test("a series is written out cell by cell", () => {
    const sheet = sheetOfMusic("1/2 A4 (F4 | 1/1 G4) ' |", "series 3 cells down by half step\n  rest 8 s");
    expect(notesOf(sheet)).toBe("A4 F4 G4 G#4 E4 F#4 G4 Eb4 F4");
    expect(sheet.bars.map((bar) => bar.pause)).toEqual([0, 8, 0, 8, 0, 0]);
    expect(sheet.bars.map((bar) => bar.opens)).toEqual([
      "C major",
      undefined,
      "B major",
      undefined,
      "B♭ major",
      undefined,
    ]);
  });

  test("a series without a count ends with the instrument", () => {
    const sheet = sheetOfMusic("1/1 A3 |", "series down by half step");
    // A3, G sharp, G, F sharp: the trumpet's lowest written note.
    expect(notesOf(sheet)).toBe("A3 G#3 G3 F#3");
  });
});

test("the lowest and highest notes are those of the profile", () => {
  for (const exercise of [...keyed, ...byPartials]) {
    const profile = profileOf({ exercise, instrument: TRUMPET, settings: STARTING_SETTINGS });
    for (const placement of everyPlacement(exercise)) {
      const midis = notes(sheetOf(exercise, { placements: [placement], cells: 1 })).map(
        (note) => midiOf(note.pitch) - note.bend,
      );
      expect(Math.min(...midis)).toBe((profile.low ?? 0) + placement.semitones);
      expect(Math.max(...midis)).toBe((profile.high ?? 0) + placement.semitones);
    }
  }
});

test("an articulation asked for takes the place of what is written", () => {
  const slurred = sheetOf(sample("Five steps"), { articulation: { kind: "all slurred" } });
  expect(notes(slurred).every((note) => note.slur !== undefined)).toBe(true);
  expect(sheetOf(sample("Five steps"), { dynamic: "pp" }).bars[0]?.events[0]).toMatchObject({
    dynamic: "pp",
  });
});

test("one key is one name all through", () => {
  const home: Key = { step: 0, alter: 0, mode: "major" };
  const sheet = sheetOf(sample("Five steps"), {
    placements: [at(tonicAt(home, 1), 1)],
    instrument: instrumentOf("cornet"),
  });
  expect(notesOf(sheet).split(" ").slice(0, 4)).toEqual(["Db4", "Eb4", "F4", "Eb4"]);
});
