import { readFileSync } from "node:fs";
import type { Placement } from "../../../server/days/placement";
import { findInstrument, type Instrument } from "../../../server/music/instrument";
import { tonicAt } from "../../../server/music/key";
import type { Sheet } from "../../../server/notation/sheet";
import { type SheetAsk, writtenOut } from "../../../server/notation/write-out";
import type { Exercise } from "../../../server/plan/exercise";
import { STARTING_SETTINGS } from "../../../server/plan/settings";
import { planOf } from "../plan-of";

export const TRUMPET = instrumentOf("trumpet in Bb");

export function instrumentOf(words: string): Instrument {
  const found = findInstrument(words);
  if (found === undefined) throw new Error(`no instrument ${words}`);
  return found;
}

const book = planOf(readFileSync(new URL("../../../samples/book.practice", import.meta.url), "utf8"));

/** Every exercise of the sample book. */
export const EXERCISES: readonly Exercise[] = [...book.exercises.values()];

export function sample(name: string): Exercise {
  const exercise = book.exercises.get(name);
  if (exercise === undefined) throw new Error(`no exercise ${name}`);
  return exercise;
}

/** The sheet of an exercise that has notes. */
export function sheetOf(exercise: Exercise, more: Partial<SheetAsk> = {}): Sheet {
  const written = writtenOut({ exercise, instrument: TRUMPET, settings: STARTING_SETTINGS, ...more });
  if (written.kind !== "sheet") throw new Error(`${exercise.name} has no notes`);
  return written.sheet;
}

/** The sheet of the only exercise of a text. */
export function sheetOfText(text: string, more: Partial<SheetAsk> = {}): Sheet {
  const [exercise] = planOf(text).exercises.values();
  if (exercise === undefined) throw new Error("no exercise in the text");
  return sheetOf(exercise, more);
}

/** An exercise of a text, with an area and what else it needs unless it says so itself. */
export function sheetOfMusic(music: string, fields = "", more: Partial<SheetAsk> = {}): Sheet {
  return sheetOfText(
    `area "A"
exercise "Test" {
  in "A"
  ${fields.includes("key ") ? "" : "key C major"}
  ${fields.includes("meter ") ? "" : "meter 4/4"}
  ${fields.includes("tempo ") ? "" : "tempo 1/4 = 60"}
  ${fields}
  ${/^(degrees|partials|music)/.test(music) ? music : `music { ${music} }`}
}
`,
    more,
  );
}

/** The twelve keys an exercise can be carried to, five half steps down to six up; its combinations, for partials. */
export function everyPlacement(exercise: Exercise, instrument: Instrument = TRUMPET): readonly Placement[] {
  const { content } = exercise;
  if (content.kind !== "notes") return [];
  const { key } = content;
  if (key === undefined) {
    return instrument.combinations.map((combination) => ({
      semitones: -combination.semitones,
      key,
      combination,
      mode: undefined,
    }));
  }
  return Array.from({ length: 12 }, (_, n) => ({
    semitones: n - 5,
    key: tonicAt(key, n - 5),
    combination: undefined,
    mode: undefined,
  }));
}

/** The written notes of a sheet as text: `C4 F#4 Bb4`. */
export function notesOf(sheet: Sheet): string {
  const signs = ["bb", "b", "", "#", "##"];
  return sheet.bars
    .flatMap((bar) => bar.events)
    .filter((event) => event.kind === "note")
    .map(
      ({ pitch }) => `${"CDEFGAB".charAt(pitch.step)}${signs[pitch.alter + 2] ?? "?"}${String(pitch.octave)}`,
    )
    .join(" ");
}
