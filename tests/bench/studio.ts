import { Random } from "./random";
import type {
  ModelAssignment,
  ModelBlock,
  ModelExercise,
  ModelSession,
  ModelStudent,
  ModelTerm,
  NoteGroup,
  NoteValue,
  StudioModel,
} from "./studio-model";

export interface StudioSize {
  readonly exercises: number;
  readonly students: number;
  /** How many of the students have terms of their own; the others share theirs by the group. */
  readonly alone: number;
  readonly group: number;
}

/** A teacher's plan in one file, 200 kB of it when written as YAML; a tenth of the conservatory's assignment-days. */
export const ONE_PLAN: StudioSize = { exercises: 304, students: 6, alone: 0, group: 2 };
/** One file of 20,000 lines and 770 kB, as long as a teacher's is ever likely to grow. */
export const LONG_PLAN: StudioSize = { exercises: 330, students: 94, alone: 0, group: 2 };
/** 200 exercises, 60 players, three terms each: 84,240 assignment-days. */
export const CONSERVATORY: StudioSize = { exercises: 200, students: 60, alone: 30, group: 6 };
export const TWICE_THE_CONSERVATORY: StudioSize = { exercises: 400, students: 120, alone: 60, group: 6 };

const AREAS = ["Long tones", "Flexibility", "Flow", "Articulation", "Fingers", "Songs"] as const;
/** What each term asks for on a day: one exercise of every area. */
export const ASSIGNMENTS_A_DAY = AREAS.length;
/** 13 weeks of six days. */
export const DAYS_A_TERM = 78;

interface HomeKey {
  readonly name: string;
  readonly tonic: string;
  /** The scale from the tonic up to the highest note that still carries a fourth up. */
  readonly scale: readonly string[];
  /** Where a walk a fourth up ends. */
  readonly end: string;
}

const HOME_KEYS: readonly [HomeKey, ...HomeKey[]] = [
  { name: "C", tonic: "C4", end: "F", scale: ["C4", "D4", "E4", "F4", "G4", "A4", "B4", "C5"] },
  { name: "D", tonic: "D4", end: "G", scale: ["D4", "E4", "F#4", "G4", "A4", "B4", "C#5", "D5"] },
  { name: "Bb", tonic: "Bb3", end: "Eb", scale: ["Bb3", "C4", "D4", "Eb4", "F4", "G4", "A4", "Bb4"] },
  { name: "F", tonic: "F4", end: "Bb", scale: ["F4", "G4", "A4", "Bb4", "C5", "D5"] },
  { name: "G", tonic: "G4", end: "C", scale: ["G4", "A4", "B4", "C5", "D5"] },
];

const TERMS = [
  { name: "Autumn", from: "2026-09-07", to: "2026-12-06", concert: "2026-11-28" },
  { name: "Spring", from: "2027-01-04", to: "2027-04-04", concert: "2027-03-20" },
  { name: "Summer", from: "2027-04-12", to: "2027-07-11", concert: "2027-06-26" },
] as const;

/** At most twelve days of one page, so that a walk through an octave does not start over. */
const BLOCKS: readonly (readonly [number, number])[] = [
  [1, 4],
  [5, 8],
  [9, 11],
  [12, 13],
];

const FIRST_WORDS = ["Slow", "Wide", "Plain", "Round", "Quiet", "Bright", "Narrow", "Long", "Easy", "Late"];
const SECOND_WORDS = ["fifths", "rivers", "stairs", "lanterns", "gates", "circles", "bells", "harbours"];
const AIMS: readonly [string, ...string[]] = [
  "the same ring on every note",
  "air first, then the tongue",
  "no bump where the fingers change",
  "the low note as wide as the high",
  "sing the line before you play it",
];
const LESSON_DAYS: readonly [string, ...string[]] = ["Tue", "Wed", "Fri"];

const NOTES_A_BAR: Readonly<Record<NoteValue, number>> = { "1/1": 1, "1/2": 2, "1/4": 4, "1/8": 8 };

/** A studio of this size; the same size always gives the same studio. */
export function studioOf(size: StudioSize): StudioModel {
  const random = new Random(2026);
  const exercises = Array.from({ length: size.exercises }, (_, i) => exercise(random, i));
  const students = Array.from({ length: size.students }, (_, i) => student(i));
  const groups: ModelStudent[][] = students.slice(0, size.alone).map((each) => [each]);
  for (let i = size.alone; i < students.length; i += size.group)
    groups.push(students.slice(i, i + size.group));
  return {
    name: "Gull Street Conservatory",
    areas: AREAS,
    exercises,
    levels: [
      { name: "Seniors", stage: "senior", keys: ["C", "D", "F"] },
      { name: "College", stage: "college", keys: ["C", "D", "F", "G", "Bb"] },
    ],
    students,
    terms: groups.flatMap((group, i) => terms(random, exercises, group, i)),
  };
}

function student(i: number): ModelStudent {
  const limits = ["B5", "C6", "Bb5"] as const;
  return {
    name: `Player ${i + 1}`,
    level: i % 2 === 0 ? "Seniors" : "College",
    limit: ["F#3", limits[i % limits.length]!],
  };
}

function exercise(random: Random, i: number): ModelExercise {
  const area = AREAS[i % AREAS.length]!;
  const number = Math.floor(i / (FIRST_WORDS.length * SECOND_WORDS.length)) + 1;
  const words = `${FIRST_WORDS[i % FIRST_WORDS.length]!} ${SECOND_WORDS[Math.floor(i / FIRST_WORDS.length) % SECOND_WORDS.length]!}`;
  const common = {
    name: number === 1 ? words : `${words}, book ${number}`,
    area,
    beat: "1/4",
    bpm: random.whole(63, 80),
    aim: random.pick(AIMS),
    rest: random.whole(18, 25),
  } as const;
  if (area === "Flexibility") {
    return {
      ...common,
      way: "partials",
      key: undefined,
      from: "",
      carries: "fourth",
      bars: bars(random, ["2", "3", "4"]),
    };
  }
  const home = random.pick(HOME_KEYS);
  const narrow = (home.name === "C" || home.name === "Bb") && random.next() < 0.6;
  const scale = narrow ? home.scale.slice(0, 5) : home.scale;
  const carries = narrow ? "octave" : "fourth";
  if (random.next() < 0.4) {
    const degrees = scale.map((_, at) => String(at + 1));
    return {
      ...common,
      way: "degrees",
      key: home.name,
      from: home.tonic,
      carries,
      bars: bars(random, degrees),
    };
  }
  return { ...common, way: "music", key: home.name, from: "", carries, bars: bars(random, scale) };
}

/** Two to four phrases of two bars, each with a breath at its end, on neighbouring steps of a ladder. */
function bars(random: Random, ladder: readonly string[]): (readonly NoteGroup[])[] {
  const result: (readonly NoteGroup[])[] = [];
  const phrases = random.whole(2, 4);
  let at = 0;
  const step = (): string => {
    const way = random.next() < 0.5 ? -1 : 1;
    at = at + way < 0 || at + way >= ladder.length ? at - way : at + way;
    return ladder[at]!;
  };
  for (let phrase = 0; phrase < phrases; phrase++) {
    const value = random.pick<NoteValue>(["1/8", "1/4", "1/4", "1/2"]);
    const notes = Array.from({ length: NOTES_A_BAR[value] }, step);
    result.push([{ value, notes, slurred: random.next() < 0.6, breath: false }]);
    if (phrase < phrases - 1) {
      const quarters = [step(), step()];
      const long = [step()];
      result.push([
        { value: "1/4", notes: quarters, slurred: true, breath: false },
        { value: "1/2", notes: long, slurred: false, breath: true },
      ]);
    } else result.push([{ value: "1/1", notes: [ladder[0]!], slurred: false, breath: true }]);
  }
  return result;
}

function terms(
  random: Random,
  exercises: readonly ModelExercise[],
  group: readonly ModelStudent[],
  index: number,
): readonly ModelTerm[] {
  const who = group.length === 1 ? group[0]!.name : `Group ${index + 1}`;
  const lesson = random.pick(LESSON_DAYS);
  const perArea = AREAS.map((area) => exercises.filter((each) => each.area === area));
  return TERMS.map((term, t) => ({
    name: `${term.name}, ${who}`,
    students: group.map((each) => each.name),
    from: term.from,
    to: term.to,
    lesson,
    concert: term.concert,
    blocks: BLOCKS.map((weeks, b): ModelBlock => {
      const page = (index * TERMS.length + t) * BLOCKS.length * 2 + b * 2;
      return {
        weeks,
        sessions: [
          ...sessions(random, perArea, page, ["Mon", "Wed", "Fri"]),
          ...sessions(random, perArea, page + 1, ["Tue", "Thu", "Sat"]),
        ],
      };
    }),
  }));
}

/** Two sessions a day: four areas in the morning, two in the evening. */
function sessions(
  random: Random,
  perArea: readonly (readonly ModelExercise[])[],
  page: number,
  days: readonly string[],
): readonly ModelSession[] {
  const assignments = perArea.map((pool) => assignment(random, pool[page % pool.length]!));
  return [
    { days, name: "Morning", minutes: 20, assignments: assignments.slice(0, 4) },
    { days, name: "Evening", minutes: 12, assignments: assignments.slice(4) },
  ];
}

function assignment(random: Random, exercise: ModelExercise): ModelAssignment {
  const { bpm } = exercise;
  const chance = random.next();
  const tempo =
    chance < 0.4
      ? ({ way: "growth", from: bpm, to: bpm + random.whole(3, 8) } as const)
      : chance < 0.5
        ? ({ way: "choice", from: bpm - 4, to: bpm + 4 } as const)
        : undefined;
  // All the combinations, or all the keys of a list, are enough once.
  const times = exercise.way === "partials" ? 1 : random.whole(2, 3);
  const minutes = random.whole(2, 3);
  const amount = random.pick<ModelAssignment["amount"]>([
    { kind: "times", from: times, to: times },
    { kind: "times", from: times, to: times + 1 },
    { kind: "minutes", from: minutes, to: minutes },
    { kind: "minutes", from: minutes, to: minutes + 1 },
  ]);
  return { exercise: exercise.name, travel: travel(random, exercise, amount.kind), tempo, amount };
}

function travel(
  random: Random,
  exercise: ModelExercise,
  amount: "times" | "minutes",
): ModelAssignment["travel"] {
  if (exercise.way === "partials") {
    return { kind: "valves", all: amount === "times", from: "open", to: random.pick(["12", "23", "13"]) };
  }
  const home = HOME_KEYS.find((each) => each.name === exercise.key)!;
  const chance = random.next();
  if (chance < 0.6) {
    const walk = { kind: "walk", from: home.name, step: "half step" } as const;
    if (exercise.carries === "octave") return { ...walk, to: home.name, pacing: "onward" };
    return { ...walk, to: home.end, pacing: "when passed" };
  }
  const near = home.name === "C" ? "D" : "C";
  if (chance < 0.75 && amount === "times") return { kind: "all", keys: [home.name, near] };
  if (chance < 0.9) return { kind: "in", key: random.pick([home.name, near]) };
  return undefined;
}
