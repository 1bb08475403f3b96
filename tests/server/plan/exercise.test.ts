import { describe, expect, it } from "vitest";
import { readSource } from "../../../grammar/pieces";
import { keyName } from "../../../server/music/key";
import { pitchName } from "../../../server/music/pitch";
import { fractionText } from "../../../server/music/rhythm";
import type { Exercise } from "../../../server/plan/exercise";
import { buildPlan, playersOf } from "../../../server/plan/plan";
import type { ScoreNote } from "../../../server/plan/score";
import { planOf } from "../plan-of";

function last(text: string): Exercise {
  const exercise = [...planOf(`area "A"\n${text}`).exercises.values()].at(-1);
  if (exercise === undefined) throw new Error("no exercise");
  return exercise;
}

function written(lines: string, more = ""): Exercise {
  return last(`exercise "X" {\n in "A"\n key C major\n meter 4/4\n tempo 1/4 = 60\n${lines}\n}\n${more}`);
}

function notes(exercise: Exercise): readonly ScoreNote[] {
  const { content } = exercise;
  if (content.kind !== "notes") throw new Error("no notes");
  return content.score.order.flatMap((index) =>
    content.score.bars[index]!.events.flatMap((event) => (event.kind === "note" ? [event] : [])),
  );
}

function pitches(exercise: Exercise): string {
  return notes(exercise)
    .map((note) => (note.pitch === undefined ? "?" : pitchName(note.pitch)))
    .join(" ");
}

function values(exercise: Exercise): string {
  return notes(exercise)
    .map((note) => fractionText(note.value))
    .join(" ");
}

describe("degrees", () => {
  const degrees = (key: string, from: string, line: string): string =>
    pitches(
      last(
        `exercise "X" {\n in "A"\n key ${key}\n meter free\n tempo 1/4 = 60\n degrees from ${from} { 1/4 ${line} }\n}`,
      ),
    );

  it.each([
    ["C major", "C4", "1 3 5 8 7 -7 -5 -1", "C4 E4 G4 C5 B4 B3 G3 C3"],
    ["C major", "C4", "b3 #4 -b7 b7", "Eb4 F#4 Bb3 Bb4"],
    ["D harmonic minor", "D4", "1 2 3 6 7 8 -7", "D4 E4 F4 Bb4 C#5 D5 C#4"],
    // Melodic minor: raised going up, natural going down.
    ["A melodic minor", "A4", "5 6 7 8 7 6 5", "E5 F#5 G#5 A5 G5 F5 E5"],
    ["D dorian", "D4", "1 3 6 7", "D4 F4 B4 C5"],
    ["F lydian", "F4", "1 4", "F4 B4"],
    ["Bb major", "Bb3", "1 2 3 4", "Bb3 C4 D4 Eb4"],
  ])("%s from %s: %s", (key, from, line, expected) => expect(degrees(key, from, line)).toBe(expected));
});

describe("variations", () => {
  const line = "music { 1/8 (C4 D4) E4 F4 1/2 G4 tie | 1/1 G4 ' | }";

  it("say only what differs; aims are added to, findings let stand are not inherited", () => {
    const varied = written(
      `${line}\n aim "even"\n rest equal\n let unused-exercise stand because "x"`,
      'exercise "Y" like "X" { aim "slow" }',
    );
    expect(pitches(varied)).toBe("C4 D4 E4 F4 G4 G4");
    expect([varied.rest.kind, varied.aims, varied.lets, varied.area]).toEqual([
      "equal",
      ["slow", "even"],
      [],
      "A",
    ]);
  });

  it("a like of a like reaches back to the first", () => {
    const varied = written(
      line,
      'exercise "Y" like "X" { rest 20 s }\nexercise "Z" like "Y" { tempo 1/2 = 40 }',
    );
    expect([varied.rest, varied.tempo?.bpm, pitches(varied)]).toEqual([
      { kind: "time", seconds: 20 },
      40,
      "C4 D4 E4 F4 G4 G4",
    ]);
  });

  it("moved moves every note by the interval, and the home key with it", () => {
    const down = written(line, 'exercise "Y" like "X" { moved down by fourth }');
    expect(pitches(down)).toBe("G3 A3 B3 C4 D4 D4");
    expect(down.content.kind === "notes" && down.content.key !== undefined && keyName(down.content.key)).toBe(
      "G major",
    );
    expect(pitches(written(line, 'exercise "Y" like "X" { moved up by minor third }'))).toBe(
      "Eb4 F4 G4 Ab4 Bb4 Bb4",
    );
  });

  it("a rhythm is given to runs of equal notes whose sum it has, and other notes keep theirs", () => {
    expect(values(written("music { 1/8 C4 D4 E4 F4 1/2 G4 | }\n rhythm 1/8. 1/16"))).toBe(
      "3/16 1/16 3/16 1/16 1/2",
    );
    expect(values(written("music { 1/4 C4 D4 E4 F4 | 1/1 G4 | }\n rhythm 1/4. 1/8"))).toBe(
      "3/8 1/8 3/8 1/8 1/1",
    );
  });

  it("a tie joins, and is not struck anew", () => {
    const tied = notes(written(line));
    expect(tied.map((note) => note.tied)).toEqual([false, false, false, false, false, true]);
    expect(tied.map((note) => note.tongued)).toEqual([true, false, true, true, true, false]);
  });

  it("repeats are played out with their endings", () => {
    expect(
      pitches(written("music { 1/1 C4 | repeat [ D4 | ] ending 1 [ E4 | ] ending 2 [ F4 | ] G4 | }")),
    ).toBe("C4 D4 E4 D4 F4 G4");
  });

  it("a note that cannot be meant is one trouble, not two", () => {
    const plan = planOf(
      'area "A"\nexercise "X" {\n in "A"\n key C major\n meter 4/4\n tempo 1/4 = 60\n music { 1/2 C4 C99 | }\n}',
    );
    expect(plan.troubles.map((each) => each.kind)).toEqual(["impossible-pitch"]);
  });
});

describe("players", () => {
  const plan = planOf(`
level "L" { stage senior  breath 9 s  each day { clock at most 40 min  upper at most 4 min } }
student "S" like "L" { limit F#3 to Bb5  each day { clock at most 30 min } }
student "T" like "S" { stage first year }
level "M" { stage college }
term "One" for "L" { from 2026-09-07 to 2026-09-08 }
term "Two" for "S", "M" { from 2026-09-07 to 2026-09-08 }
`);
  const figures = (name: string) => plan.players.get(name)!.figures;

  it("a budget line replaces the one of its name, the others stay", () => {
    expect([figures("S").dayClock?.value, figures("S").dayUpper?.value, figures("S").breath?.value]).toEqual([
      1800, 240, 9,
    ]);
    // What nobody states comes from the stage, and the nearest stage counts.
    expect([
      figures("L").dayPlaying?.value,
      figures("T").dayPlaying?.value,
      figures("T").breath?.value,
    ]).toEqual([28 * 60, 9 * 60, 9]);
  });

  it("a term for a level holds for every student who is like it, by whatever way", () => {
    const names = (term: string): readonly string[] =>
      playersOf(plan, plan.terms.get(term)!).map((each) => each.name);
    expect(names("One")).toEqual(["L", "S", "T"]);
    expect(names("Two")).toEqual(["S", "T", "M"]);
  });
});

it("an exercise that is like another which is like a third is whole again when the third comes back", () => {
  const area = 'area "A"\n';
  const third = 'exercise "C" { in "A"  meter 4/4  tempo 1/4 = 60 }\n';
  const others = 'exercise "B" like "C" { key D major }\nexercise "A" like "B" { music { 1/1 D4 | } }\n';
  const last = 'exercise "D" like "A" { aim "softly" }\n';
  const whole = area + third + others + last;
  const without = area + others + last;
  const before = readSource(without);
  const early = buildPlan(before.pieces, []);
  expect(early.troubles.map(({ kind }) => kind)).toContain("line-missing");
  const after = readSource(whole, before);
  const taken = buildPlan(after.pieces, [], [], { own: before.pieces, used: [], records: [], plan: early });
  const fresh = buildPlan(readSource(whole).pieces, []);
  expect([...taken.exercises.keys()]).toEqual([...fresh.exercises.keys()]);
  expect(taken.exercises.get("D")?.content.kind).toBe("notes");
  expect(taken.troubles.map(({ kind }) => kind)).toEqual(fresh.troubles.map(({ kind }) => kind));
});
