import { describe, expect, test } from "vitest";
import { references } from "../../../server/features/references";
import { asWindows, drawnLocations, opened, PLACES } from "./opened";
import { cursorIn } from "./small-studio";

function found(picture: string, withDeclaration = true, change?: (text: string) => string) {
  const studio = opened(picture, change);
  return drawnLocations(
    studio,
    references(studio.checked, studio.path, studio.position, withDeclaration, PLACES),
  );
}

const FIFTHS = {
  "book.practice": [
    'exercise "⟦Slow fifths⟧" {',
    'exercise "Slow fifths, tongued" like "⟦Slow fifths⟧" {',
    '"⟦Slow fifths⟧" twice',
    'short 5 min { "⟦Slow fifths⟧" once }',
  ],
  "2026/autumn.practice": [
    '"⟦Slow fifths⟧" in C twice',
    'replace "⟦Slow fifths⟧" with "Slow fifths, tongued" weeks 1 to 3',
    'leave out "⟦Slow fifths⟧" week 4',
  ],
  "2026/record.practice": [
    'week 1 "K. M." done except "⟦Slow fifths⟧"',
    '2026-09-15 "K. M." passed "⟦Slow fifths⟧" in C',
    '2026-09-17 "K. M." "⟦Slow fifths⟧" in D at 56 twice',
  ],
};

describe("references", () => {
  test("an exercise, in the book, the terms and the record, from wherever it is asked", () => {
    for (const [path, text, nth] of [
      ["book.practice", 'exercise "Sl', 1],
      ["2026/autumn.practice", '"Slow fif', 3],
      ["2026/record.practice", 'passed "Sl', 1],
    ] as const) {
      expect(found(cursorIn(path, text, nth))).toEqual(FIFTHS);
      expect(found(cursorIn(path, text, nth), true, asWindows)).toEqual(FIFTHS);
    }
  });

  test("without the declaration", () => {
    const { "book.practice": book, ...others } = FIFTHS;
    expect(found(cursorIn("book.practice", 'exercise "Sl'), false)).toEqual({
      "book.practice": book.slice(1),
      ...others,
    });
  });

  test("a term of one year, and not its namesake", () => {
    expect(found(cursorIn("2026/autumn.practice", 'term "Au'))).toEqual({
      "2026/autumn.practice": ['term "⟦Autumn⟧" for "Seniors", "K. M." {'],
      "2026/record.practice": ['record of "⟦Autumn⟧" {'],
    });
    expect(found(cursorIn("2025/autumn.practice", 'term "Au'))).toEqual({
      "2025/autumn.practice": ['term "⟦Autumn⟧" for "Seniors" {'],
    });
  });

  test("a level: the students like it and the terms for it", () => {
    expect(found(cursorIn("players.practice", 'level "Se'), false)).toEqual({
      "players.practice": ['student "K. M." like "⟦Seniors⟧"'],
      "2025/autumn.practice": ['term "Autumn" for "⟦Seniors⟧" {'],
      "2026/autumn.practice": ['term "Autumn" for "⟦Seniors⟧", "K. M." {'],
    });
  });

  test("a file: the lines that bring it in", () => {
    expect(found(cursorIn("2026/autumn.practice", "../boo"))).toEqual({
      "2025/autumn.practice": ['use "⟦../book.practice⟧"'],
      "2026/autumn.practice": ['use "⟦../book.practice⟧"'],
    });
  });

  test("lines that cannot be read yet count too", () => {
    expect(found('exercise "‸A"\nroutine "R" {\n  "A" keys \n  "A" once\n}\n')).toEqual({
      "plan.practice": ['exercise "⟦A⟧"', '"⟦A⟧" keys', '"⟦A⟧" once'],
    });
  });

  test("nothing where there is no name, or one that nobody bears", () => {
    expect(found("‸")).toEqual({});
    expect(found('exercise "A" { in "Nowh‸ere" }\n')).toEqual({});
    expect(found('exer‸cise "A"\n')).toEqual({});
    const studio = opened("");
    expect(references(studio.checked, "elsewhere.practice", studio.position, true, PLACES)).toEqual([]);
  });

  test("an area and an exercise of the same name are two things", () => {
    expect(found('area "Flow"\nexercise "‸Flow" { in "Flow" }\nroutine "R" { "Flow" }\n')).toEqual({
      "plan.practice": ['exercise "⟦Flow⟧" { in "Flow" }', 'routine "R" { "⟦Flow⟧" }'],
    });
  });
});
