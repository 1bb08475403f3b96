import fc from "fast-check";
import { readSource } from "../../../grammar/pieces";
import type { Exercise } from "../../../server/plan/exercise";
import { buildPlan } from "../../../server/plan/plan";

const notes = "C4 D#4 Bb4 F##5 Gbb3 E5 A3 B5 C6 rest".split(" ");
const marks = [
  ..."accent staccato tenuto marcato fermata trill turn mordent held tie '".split(" "),
  "bend half step",
  "bend minor third",
];
const values = "1/4 1/8 1/8. 1/16 1/2 1/1 1/32 1/4...".split(" ");
const changes = [
  ..."mf p ff cresc dim single double triple | |".split(" "),
  "attack air",
  "attack lip",
  "| key G major",
  "| key Cb major",
  "| meter 3/4",
  "| meter 6/8",
  "| meter free",
  "| free 7 s",
];

const joined = (words: readonly string[]): string => words.join(" ");
const note = fc
  .tuple(fc.constantFrom(...notes), fc.option(fc.constantFrom(...marks), { freq: 3 }))
  .map(([pitch, mark]) => (mark === null ? pitch : `${pitch} ${mark}`));
const simple = fc.oneof(
  { arbitrary: note, weight: 5 },
  fc.constantFrom(...values),
  fc.constantFrom(...changes),
);
const run = fc.array(simple, { minLength: 1, maxLength: 8 }).map(joined);
const element = fc.oneof(
  { arbitrary: run, weight: 4 },
  fc.tuple(fc.constantFrom("(", "lip ("), run).map(([open, inside]) => `${open} ${inside} )`),
  fc
    .tuple(fc.constantFrom("triplet [", "5:4 [", "13:11 ["), fc.array(note, { minLength: 1, maxLength: 7 }))
    .map(([open, inside]) => `${open} ${joined(inside)} ]`),
  fc.tuple(run, run, run, fc.nat(2)).map(([one, two, three, endings]) => {
    const more = [`ending 1 [ ${two} | ]`, `ending 2 [ ${three} | ]`].slice(0, endings);
    return joined([`repeat [ ${one} | ]`, ...more]);
  }),
);

/** Music that can be read and is mostly not sound: bars that do not fill, ties to nothing, notes nobody can play. */
const music = fc
  .tuple(fc.boolean(), fc.array(element, { minLength: 1, maxLength: 8 }))
  .map(([pickup, all]) => `${pickup ? "pickup " : ""}1/4 ${joined(all)}`);
const KEYS = ["C major", "F# major", "Cb major", "A melodic minor", "G# minor", "D dorian", "B locrian"];

/** An exercise of any music, key, meter and variation. */
export const anyExercise = fc.record({
  music,
  key: fc.constantFrom(...KEYS),
  meter: fc.constantFrom("4/4", "3/4", "6/8", "7/8", "2/2", "free"),
  more: fc.constantFrom(
    "",
    "series 3 cells down by half step",
    "series up by fourth",
    "articulation all slurred",
    "articulation slur 2 tongue 2",
    "rhythm 1/8. 1/16",
    "ornament turn on 1/4",
    "rest equal",
  ),
});

/** The exercise as it is read; undefined where it cannot be. */
export function exerciseOf(asked: {
  music: string;
  key: string;
  meter: string;
  more: string;
}): Exercise | undefined {
  const text = `area "A"
exercise "Test" {
  in "A"
  key ${asked.key}
  meter ${asked.meter}
  tempo 1/4 = 84
  ${asked.more}
  music { ${asked.music} }
}
`;
  return [...buildPlan(readSource(text).pieces, []).exercises.values()][0];
}
