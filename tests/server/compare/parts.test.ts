import { describe, expect, test } from "vitest";
import { changedBars } from "../../../server/compare/changed-bars";
import { isEmpty } from "../../../server/compare/comparison";
import { withoutYears } from "../../../server/compare/matched-terms";
import { SMALL } from "../cli/command";
import { compared } from "./sides";

function replaced(text: string, ...changes: readonly (readonly [string, string])[]): string {
  return changes.reduce((now, [from, to]) => {
    expect(now).toContain(from);
    return now.replace(from, to);
  }, text);
}

describe("exercises", () => {
  const music = "music { 1/2 C4 G4 | 1/1 C4 ' | }";

  test("moved as a whole has another key and the same bars", () => {
    const { book } = compared(
      SMALL,
      replaced(SMALL, ["key C major", "key D major"], [music, "music { 1/2 D4 A4 | 1/1 D4 ' | }"]),
    );
    expect(book.rewritten).toMatchObject([
      { bars: [], lines: [{ what: "key", before: "C major", after: "D major" }] },
    ]);
  });

  test("the same notes under another key have no other bars, and are not called moved", () => {
    const { book } = compared(SMALL, replaced(SMALL, [music, "music { 1/2 C4 A4 | 1/1 C4 ' | }"]));
    expect(book.rewritten).toMatchObject([{ bars: [{ before: [1], after: [1] }], lines: [] }]);
  });

  test.each([
    ["a slur", "music { 1/2 (C4 G4) | 1/1 C4 ' | }"],
    ["a dynamic", "music { p 1/2 C4 G4 | mf 1/1 C4 ' | }"],
    ["an accent", "music { 1/2 C4 accent G4 | 1/1 C4 ' | }"],
    ["other values", "music { 1/2. C4 1/4 G4 | 1/1 C4 ' | }"],
    ["a breath", "music { 1/2 C4 ' G4 | 1/1 C4 ' | }"],
    ["a repeat", "music { repeat [ 1/2 C4 G4 ] | 1/1 C4 ' | }"],
  ])("%s is written anew in the bar where it stands", (_, written) => {
    const { book } = compared(SMALL, replaced(SMALL, [music, written]));
    expect(book.rewritten[0]?.bars[0]).toEqual({ before: [1], after: [1] });
  });

  test("values spelled as words and notes laid out otherwise are the same music", () => {
    const after = replaced(SMALL, [music, "music {\n half C4\n G4 |\n whole C4 ' |\n}"]);
    expect(isEmpty(compared(SMALL, after))).toBe(true);
  });

  test("what an exercise takes from another counts as its own", () => {
    const like = `${SMALL}\nexercise "Again" like "Fifths" { rest 20 s }\n`;
    const own = `${SMALL}\nexercise "Again" {
      in "Tones"
      key C major
      meter 4/4
      tempo 1/4 = 60
      ${music}
      rest 20 s
    }\n`;
    expect(isEmpty(compared(like, own))).toBe(true);
  });

  test("a renamed exercise is practised on under its new name", () => {
    const { book, terms, findings } = compared(SMALL, SMALL.replaceAll('"Fifths"', '"Open fifths"'));
    expect(book).toMatchObject({
      added: [],
      dropped: [],
      renamed: [{ before: "Fifths", after: "Open fifths" }],
    });
    expect(terms.changed).toEqual([]);
    expect([...findings.gained, ...findings.lost]).toEqual([]);
  });
});

describe("bars", () => {
  test.each([
    ["abc", "abc", []],
    ["abc", "axc", [{ before: [1], after: [1] }]],
    ["abc", "abxc", [{ before: [], after: [2] }]],
    ["abxc", "abc", [{ before: [2], after: [] }]],
    [
      "abcdef",
      "xbcef",
      [
        { before: [0], after: [0] },
        { before: [3], after: [] },
      ],
    ],
    ["", "ab", [{ before: [], after: [0, 1] }]],
  ])("%s beside %s", (before, after, changes) => {
    expect(changedBars([...before], [...after])).toEqual(changes);
  });
});

describe("terms", () => {
  test.each([
    ["Autumn 2025", "Autumn"],
    ["Autumn 2025-26, seniors", "Autumn, seniors"],
    ["2025/26 autumn", "autumn"],
    ["Grade 5", "Grade 5"],
  ])("“%s” without its years is “%s”", (name, without) => {
    expect(withoutYears(name)).toBe(without);
  });

  const pair = (first: string, second: string): string =>
    `--- one.practice\n${SMALL.replace("Autumn", first)}\n--- two.practice\nuse "one.practice"\n${SMALL.slice(
      SMALL.indexOf("term"),
    ).replace("Autumn", second)}`;

  test("of one name in two files belong together in their order", () => {
    const { terms } = compared(
      pair("Autumn", "Autumn"),
      pair("Autumn", "Autumn").replaceAll(/to 2026-09-19(?![\s\S]*to 2026-09-19)/g, "to 2026-09-18"),
    );
    expect(terms).toMatchObject({ added: [], dropped: [], changed: [{ term: { after: "Autumn" } }] });
  });

  test("of another name belong together where each side has one left for the same players", () => {
    const { terms } = compared(SMALL, SMALL.replace("Autumn", "Michaelmas"));
    expect(terms).toMatchObject({
      added: [],
      dropped: [],
      changed: [{ term: { before: "Autumn", after: "Michaelmas" }, practice: [] }],
    });
  });

  test("without a partner are new, or gone", () => {
    const { terms } = compared(SMALL, pair("Autumn", "Spring"));
    expect(terms).toEqual({ added: ["Spring"], dropped: [], changed: [] });
  });

  test("without a taught week leave the rest to be compared", () => {
    const closed = replaced(SMALL, [
      "practice Mon to Sat",
      "practice Mon to Sat\n  closed 2026-09-07 to 2026-09-19",
    ]);
    const { terms, book } = compared(SMALL, replaced(closed, ["tempo 1/4 = 60", "tempo 1/4 = 66"]));
    expect(book.rewritten).toHaveLength(1);
    expect(terms.changed[0]).toMatchObject({
      taughtWeeks: { before: 2, after: 0 },
      practice: [{ givenUp: [{ exercise: "Fifths" }], weeks: [{ after: undefined }, { after: undefined }] }],
    });
  });

  test("tell who meets them now", () => {
    const more = `${SMALL}\nstudent "J. T." like "Seniors" { }\n`;
    expect(compared(SMALL, more).terms.changed).toMatchObject([{ newPlayers: ["J. T."], formerPlayers: [] }]);
    expect(compared(SMALL, more).players.added).toEqual(["J. T."]);
  });
});

describe("findings", () => {
  const short = replaced(SMALL, ['"Morning" 10 min', '"Morning" 15 s']);

  test("stay the same when only their figures change", () => {
    const { findings } = compared(short, replaced(short, ["tempo 1/4 = 60", "tempo 1/4 = 58"]));
    expect(findings).toEqual({ gained: [], lost: [], standsNow: [], standsNoMore: [] });
  });

  test("stay the same at the name of a term that another year has", () => {
    const walk = (year: string): string => SMALL.replace('"Autumn"', `"Autumn ${year}"`);
    // A walk of five keys on ten days starts over, which is told at the term's name.
    const { findings, terms } = compared(walk("2026"), walk("2027"));
    expect(terms.changed).toMatchObject([{ term: { before: "Autumn 2026", after: "Autumn 2027" } }]);
    expect(findings).toEqual({ gained: [], lost: [], standsNow: [], standsNoMore: [] });
    const before = compared("", walk("2026")).findings.gained.map((each) => each.code);
    expect(before).toContain("walk-restarts");
  });

  test("come and go", () => {
    expect(compared(SMALL, short).findings.gained.map((each) => each.code)).toEqual(["session-minutes"]);
    expect(compared(short, SMALL).findings.lost.map((each) => each.code)).toEqual(["session-minutes"]);
  });

  test("that are let stand now are told as such", () => {
    const stands = replaced(short, [
      "practice Mon",
      'let session-minutes stand because "a start"\n  practice Mon',
    ]);
    const { findings } = compared(short, stands);
    expect(findings).toMatchObject({
      gained: [],
      lost: [],
      standsNow: [{ code: "session-minutes", standing: "a start" }],
    });
    expect(compared(stands, short).findings.standsNoMore).toHaveLength(1);
  });
});
