import { describe, expect, test } from "vitest";
import { readSource } from "../../grammar/pieces";
import { printAssignmentHead, printStatement } from "../../grammar/print";
import { printClause } from "../../grammar/print-leaves";
import type { Assignment, Declaration, ExerciseField, MusicField, RecordLine } from "../../grammar/tree";
import { messagesOf } from "./read";

function declarationOf(text: string): Declaration {
  const [piece] = readSource(text).pieces;
  if (piece?.declaration === undefined) throw new Error(`no declaration in ${text}`);
  return piece.declaration;
}

function assignmentOf(line: string): Assignment {
  const routine = declarationOf(`routine "R" {\n  ${line}\n}\n`);
  const item = routine.kind === "routine" ? routine.block?.items[0] : undefined;
  if (item?.kind !== "assignment") throw new Error(`no assignment in ${line}`);
  return item;
}

function fieldOf(line: string): ExerciseField {
  const exercise = declarationOf(`exercise "E" {\n  ${line}\n}\n`);
  const item = exercise.kind === "exercise" ? exercise.block?.items[0] : undefined;
  if (item === undefined || item.kind === "unread") throw new Error(`no field in ${line}`);
  return item;
}

function musicOf(line: string): MusicField["music"]["elements"] {
  const field = fieldOf(line);
  if (field.kind !== "music") throw new Error(`no music in ${line}`);
  return field.music.elements;
}

describe("an assignment", () => {
  test("tells growth from choice", () => {
    const clauses = assignmentOf('"A" tempo 50 to 58 2 to 4 times').clauses;
    expect(clauses).toMatchObject([
      { kind: "tempo", beat: undefined, bpm: { way: "growth", from: { value: 50 }, to: { value: 58 } } },
      { kind: "times", word: "times", times: { way: "growth", from: { value: 2 }, to: { value: 4 } } },
    ]);
    expect(assignmentOf('"A" tempo 1/8 = between 50 and 58').clauses).toMatchObject([
      {
        kind: "tempo",
        beat: { num: 1, den: 8 },
        bpm: { way: "choice", from: { value: 50 }, to: { value: 58 } },
      },
    ]);
  });

  test("counts once and twice", () => {
    expect(assignmentOf('"A" twice').clauses).toMatchObject([
      { word: "twice", times: { from: { value: 2 } } },
    ]);
    expect(assignmentOf('"A" three times').clauses).toMatchObject([
      { word: "times", times: { from: { value: 3 } } },
    ]);
  });

  test("takes its clauses in any order, and the travel words behind them", () => {
    const { clauses } = assignmentOf('"A" twice all keys C up by half step to G tempo 60 folded afresh');
    expect(clauses).toMatchObject([
      { kind: "times" },
      {
        kind: "keys",
        all: true,
        folded: true,
        pacing: "afresh",
        nextRound: undefined,
        travel: {
          kind: "walk",
          direction: "up",
          step: "half step",
          from: { tonic: "C" },
          to: { tonic: "G" },
        },
      },
      { kind: "tempo" },
    ]);
    expect(clauses.map(printClause)).toEqual([
      "twice",
      "all keys C up by half step to G  folded  afresh",
      "tempo 60",
    ]);
  });

  test("tells where the keys of a list lie", () => {
    expect(assignmentOf('"A" keys F below, G minor, Bb above').clauses).toMatchObject([
      {
        travel: {
          kind: "list",
          keys: [
            { key: { tonic: "F" }, place: "below" },
            { key: { tonic: "G", mode: "minor" }, place: undefined },
            { key: { tonic: "Bb" }, place: "above" },
          ],
        },
      },
    ]);
  });

  test("tells all keys from all slurred", () => {
    expect(assignmentOf('"A" all slurred all valves open to 123').clauses).toMatchObject([
      { kind: "articulation", articulation: { kind: "all slurred" } },
      { kind: "valves", all: true, travel: { kind: "walk", from: { text: "open" }, to: { text: "123" } } },
    ]);
  });

  test("is printed alone and with its braces", () => {
    const assignment = assignmentOf('"A" in C  once {\n    aim "x"\n  }');
    expect(printAssignmentHead(assignment)).toBe('"A"  in C  once');
    expect(printStatement(assignment, 2)).toBe('"A"  in C  once {\n    aim       "x"\n  }');
  });
});

describe("an exercise", () => {
  test("reads note values in every spelling", () => {
    expect(fieldOf("rhythm 1/8. dotted quaver crotchet half 1/16..")).toMatchObject({
      values: [
        { num: 1, den: 8, dots: 1, text: "1/8." },
        { num: 1, den: 8, dots: 1, text: "dotted quaver" },
        { num: 1, den: 4, dots: 0 },
        { num: 1, den: 2, dots: 0 },
        { num: 1, den: 16, dots: 2 },
      ],
    });
  });

  test("reads lengths of time in parts, with or without spaces", () => {
    const parts = [
      { value: 1, unit: "min" },
      { value: 30, unit: "s" },
    ];
    expect(fieldOf("lasts 1 min 30 s")).toMatchObject({ time: { parts } });
    expect(fieldOf("lasts 1min 30s")).toMatchObject({ time: { parts } });
  });

  test("reads degrees below the tonic and altered ones", () => {
    expect(musicOf("degrees from C4 { 1 -7 b3 #4 -b7 ♭2 22 -14 }")).toMatchObject([
      { degree: 1, alter: 0 },
      { degree: -7, alter: 0 },
      { degree: 3, alter: -1 },
      { degree: 4, alter: 1 },
      { degree: -7, alter: -1 },
      { degree: 2, alter: -1, text: "b2" },
      { degree: 22, alter: 0 },
      { degree: -14, alter: 0 },
    ]);
  });

  test("keeps what can be read around what cannot", () => {
    expect(musicOf("music { 1/4 C4 h4 D4 }").map(({ kind }) => kind)).toEqual([
      "value",
      "pitch",
      "unread music",
      "pitch",
    ]);
  });

  test("reads brackets inside one another", () => {
    expect(musicOf("music { repeat [ triplet [ C4 D4 E4 ] 5:4 [ C4 ] ] ending 2 [ F4 ] }")).toMatchObject([
      {
        kind: "repeat",
        elements: [
          { kind: "tuplet", notes: 3, inTimeOf: 2, word: true },
          { kind: "tuplet", notes: 5, inTimeOf: 4, word: false },
        ],
      },
      { kind: "ending", number: 2, elements: [{ kind: "pitch" }] },
    ]);
  });

  test("may name an activity like a word of the language", () => {
    expect(fieldOf("activity rest")).toMatchObject({ quoted: false, activity: { text: "rest" } });
    expect(fieldOf('activity "slow walking"')).toMatchObject({
      quoted: true,
      activity: { text: "slow walking" },
    });
    expect(fieldOf('let tempo stand because "x"')).toMatchObject({ kind: "let", code: { text: "tempo" } });
  });
});

test("a record names its days one by one", () => {
  const record = declarationOf('record of "T" {\n  week 1 "S" Mon to Wed, Sat felt 4\n}\n');
  const line = record.kind === "record" ? (record.block?.items[0] as RecordLine) : undefined;
  expect(line?.entries).toMatchObject([
    { kind: "days", days: ["Mon", "Tue", "Wed", "Sat"] },
    { kind: "felt", effort: { value: 4 } },
  ]);
});

describe("what is half typed", () => {
  test("leaves the rest of its block alone", () => {
    const exercise = declarationOf('exercise "E" {\n  tempo 1/4 =\n  key C\n}\n');
    const kinds = exercise.kind === "exercise" ? exercise.block?.items.map(({ kind }) => kind) : [];
    expect(kinds).toEqual(["unread", "key"]);
  });

  test("keeps a declaration whose first line is wrong, so that what names it still finds it", () => {
    const exercise = declarationOf('exercise "E" lik "F" {\n  key C\n}\n');
    expect(exercise).toMatchObject({
      kind: "exercise",
      name: { text: "E" },
      block: { items: [{ kind: "key" }] },
    });
  });

  test("keeps a session whose minutes are wrong", () => {
    const text =
      'term "T" for "L" {\n  weeks 1 to 2 {\n    Mon "M" 15 minn {\n      "A" once\n    }\n  }\n}\n';
    expect(declarationOf(text)).toMatchObject({
      block: {
        items: [{ block: { items: [{ kind: "session", block: { items: [{ kind: "assignment" }] } }] } }],
      },
    });
    expect(messagesOf(text)).toHaveLength(1);
  });

  test("lets a brace begin on a line of its own", () => {
    expect(messagesOf('exercise "E"\n{\n  key C\n}\n')).toEqual([]);
  });
});
