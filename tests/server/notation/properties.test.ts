import fc from "fast-check";
import { SaxesParser } from "saxes";
import { expect, test } from "vitest";
import { toNumber } from "../../../server/music/rhythm";
import { midiOf } from "../../../server/notation/midi";
import { musicXmlOf } from "../../../server/notation/musicxml";
import { playedNotes, playedOut } from "../../../server/notation/played-out";
import { writtenOut } from "../../../server/notation/write-out";
import type { Exercise } from "../../../server/plan/exercise";
import { STARTING_SETTINGS } from "../../../server/plan/settings";
import { lasting, profileOf } from "../../../server/profile/profile";
import { anyExercise, exerciseOf } from "./any-exercise";
import { everyPlacement, instrumentOf, TRUMPET } from "./samples";
import { musicXmlSchema } from "./schema";

const schema = musicXmlSchema();
const RUNS = { numRuns: 150, seed: 20_260 };

function notesIn(exercise: Exercise | undefined): number | undefined {
  if (exercise?.content.kind !== "notes") return undefined;
  return exercise.content.score.bars.flatMap((bar) => bar.events).filter((event) => event.kind === "note")
    .length;
}

function faultsOfXml(xml: string): readonly string[] {
  const faults: string[] = [];
  const parser = new SaxesParser();
  parser.on("error", (error) => faults.push(error.message));
  parser.write(xml).close();
  return faults;
}

test("most of what is tried can be read", () => {
  const tried = fc.sample(anyExercise, { numRuns: 200, seed: RUNS.seed });
  const read = tried.filter((each) => (notesIn(exerciseOf(each)) ?? 0) > 4);
  expect(read.length).toBeGreaterThan(100);
});

test("whatever is typed as music becomes a valid file in any key on any instrument", () => {
  const instruments = [TRUMPET, instrumentOf("trumpet in Eb"), instrumentOf("piccolo trumpet in A")];
  fc.assert(
    fc.property(anyExercise, fc.nat(11), fc.constantFrom(...instruments), (asked, at, instrument) => {
      const exercise = exerciseOf(asked);
      if (exercise === undefined) return;
      const placement = everyPlacement(exercise)[at];
      const written = writtenOut({
        exercise,
        instrument,
        settings: STARTING_SETTINGS,
        placements: placement === undefined ? undefined : [placement],
      });
      if (written.kind === "empty") return;
      if (written.kind !== "sheet") throw new Error("it has notes");
      const { sheet } = written;
      const xml = musicXmlOf(sheet, { fingerings: "marks", ids: true, breaks: new Set([1]) });
      expect(faultsOfXml(xml)).toEqual([]);
      expect(schema.faultsOf(xml)).toEqual([]);
      for (const { key } of sheet.bars) expect(key).toBeDefined();
      expect(midiOf(sheet).length).toBeGreaterThan(40);
    }),
    RUNS,
  );
});

test("whatever is typed as music lasts as long in notation as in the totals", () => {
  fc.assert(
    fc.property(anyExercise, (asked) => {
      const exercise = exerciseOf(asked);
      if (exercise === undefined) return;
      const written = writtenOut({
        exercise,
        instrument: TRUMPET,
        settings: STARTING_SETTINGS,
        placements: everyPlacement(exercise).slice(5, 6),
        cells: 1,
      });
      if (written.kind === "empty") return;
      if (written.kind !== "sheet") throw new Error("it has notes");
      const moments = playedOut(written.sheet);
      const seconds = moments.reduce((sum, moment) => sum + moment.seconds, 0);
      const profile = profileOf({ exercise, instrument: TRUMPET, settings: STARTING_SETTINGS });
      const whole = 60 / (84 * toNumber({ num: 1, den: 4 }));
      expect(seconds).toBeCloseTo(lasting(profile.playing, whole) + lasting(profile.resting, whole), 6);
      // Every note sounds once, from its moment on, and none before the one in front of it has ended.
      let before = -1;
      for (const { first, last, share } of playedNotes(moments)) {
        expect(first).toBeGreaterThan(before);
        expect(last).toBeGreaterThanOrEqual(first);
        expect(share).toBeGreaterThan(0);
        expect(share).toBeLessThanOrEqual(1);
        before = last;
      }
      const struck = moments.filter(({ event }) => event?.kind === "note" && !event.tied).length;
      expect(playedNotes(moments).length).toBeGreaterThanOrEqual(struck);
    }),
    RUNS,
  );
});
