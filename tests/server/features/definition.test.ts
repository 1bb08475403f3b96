import { describe, expect, test } from "vitest";
import { definition, locationsOf } from "../../../server/features/definition";
import { asWindows, drawnLocations, drawnRanges, markedLines, opened, PLACES } from "./opened";
import { cursorIn } from "./small-studio";

/** The places gone to from the cursor, each drawn in its file. */
function goneTo(picture: string, change?: (text: string) => string) {
  const studio = opened(picture, change);
  const links = definition(studio.checked, studio.path, studio.position, PLACES);
  return drawnLocations(studio, locationsOf(links));
}

describe("definition", () => {
  test.each([
    ["an assignment", "2026/autumn.practice", '"Slow fif', 3, "book.practice", 'exercise "⟦Slow fifths⟧" {'],
    [
      "a replacement",
      "2026/autumn.practice",
      'with "Slow',
      1,
      "book.practice",
      'exercise "⟦Slow fifths, tongued⟧" like "Slow fifths" {',
    ],
    [
      "what is left out",
      "2026/autumn.practice",
      'leave out "Sl',
      1,
      "book.practice",
      'exercise "⟦Slow fifths⟧" {',
    ],
    ["a like", "players.practice", 'like "Sen', 1, "players.practice", 'level "⟦Seniors⟧" {'],
    [
      "a like of an exercise",
      "book.practice",
      'like "Slow',
      1,
      "book.practice",
      'exercise "⟦Slow fifths⟧" {',
    ],
    [
      "an area, in the studio's own file",
      "book.practice",
      'in "Long',
      1,
      "studio.practice",
      'area "⟦Long tones⟧"',
    ],
    [
      "players of a term",
      "2026/autumn.practice",
      '"K. M',
      1,
      "players.practice",
      'student "⟦K. M.⟧" like "Seniors"',
    ],
    [
      "a change",
      "2026/autumn.practice",
      'change "K',
      1,
      "players.practice",
      'student "⟦K. M.⟧" like "Seniors"',
    ],
    [
      "a routine called up",
      "2025/autumn.practice",
      'routine "Mor',
      1,
      "book.practice",
      'routine "⟦Morning basics⟧" 15 min {',
    ],
    ["a short version", "book.practice", 'min { "Slow', 1, "book.practice", 'exercise "⟦Slow fifths⟧" {'],
    [
      "an exception of the record",
      "2026/record.practice",
      'except "Sl',
      1,
      "book.practice",
      'exercise "⟦Slow fifths⟧" {',
    ],
    [
      "a student of the record",
      "2026/record.practice",
      'week 1 "K',
      1,
      "players.practice",
      'student "⟦K. M.⟧" like "Seniors"',
    ],
    [
      "what was passed",
      "2026/record.practice",
      'passed "Sl',
      1,
      "book.practice",
      'exercise "⟦Slow fifths⟧" {',
    ],
    ["what was played", "2026/record.practice", '" "Sl', 1, "book.practice", 'exercise "⟦Slow fifths⟧" {'],
    [
      "a declaration itself",
      "book.practice",
      'exercise "Sl',
      1,
      "book.practice",
      'exercise "⟦Slow fifths⟧" {',
    ],
  ])("%s", (_, path, text, nth, target, line) => {
    expect(goneTo(cursorIn(path, text, nth))).toEqual({ [target]: [line] });
    expect(goneTo(cursorIn(path, text, nth), asWindows)).toEqual({ [target]: [line] });
  });

  test("a record goes to the term of its own year", () => {
    expect(goneTo(cursorIn("2026/record.practice", 'of "Aut'))).toEqual({
      "2026/autumn.practice": ['term "⟦Autumn⟧" for "Seniors", "K. M." {'],
    });
  });

  test("a use line leads to the top of its file", () => {
    const studio = opened(cursorIn("2026/autumn.practice", "../boo"));
    const [link, ...others] = definition(studio.checked, studio.path, studio.position, PLACES);
    expect(others).toEqual([]);
    expect(link?.targetUri).toBe("plans:/book.practice");
    expect(link?.targetRange.start).toEqual({ line: 0, character: 0 });
    const origin = link?.originSelectionRange;
    if (origin === undefined) throw new Error("no origin");
    expect(markedLines(drawnRanges(studio.file(studio.path), [origin]))).toEqual([
      'use "⟦../book.practice⟧"',
    ]);
  });

  test("a name in aims and goals, and that of a session, leads nowhere", () => {
    expect(goneTo(cursorIn("2026/autumn.practice", '"Slow fif', 1))).toEqual({});
    expect(goneTo(cursorIn("2026/autumn.practice", '"Slow fif', 2))).toEqual({});
  });

  test("neither does a name that nobody bears, a word, an empty file, a missing file or a use of no file", () => {
    expect(goneTo('routine "R" {\n  "Nob‸ody" once\n}\n')).toEqual({});
    expect(goneTo('routine "R" {\n  "Nobody" on‸ce\n}\n')).toEqual({});
    expect(goneTo("‸")).toEqual({});
    expect(goneTo('use "no‸where.practice"\n')).toEqual({});
    const studio = opened("‸");
    expect(definition(studio.checked, "elsewhere.practice", studio.position, PLACES)).toEqual([]);
  });

  test("of two that bear a name the first is gone to, and each is its own", () => {
    const two = (cursor: string): string =>
      `exercise "A" { }\nexercise "A" { }\nroutine "R" { "A" }\n`.replace(/"A"/g, (name, at: number) =>
        `${at === 9 ? "1" : at === 26 ? "2" : "3"}` === cursor ? '"‸A"' : name,
      );
    const first = { "plan.practice": ['exercise "⟦A⟧" { }'] };
    expect(goneTo(two("3"))).toEqual(first);
    expect(goneTo(two("1"))).toEqual(first);
    const studio = opened(two("2"));
    const [own] = definition(studio.checked, studio.path, studio.position, PLACES);
    expect(own?.targetSelectionRange.start.line).toBe(1);
  });

  test("a line that cannot be read yet is gone from all the same", () => {
    const rest = 'exercise "Fifths" { in "Tones" }\narea "Tones"\nlevel "Seniors"\n';
    const fifths = { "plan.practice": ['exercise "⟦Fifths⟧" { in "Tones" }'] };
    expect(goneTo(`${rest}routine "R" {\n  "Fif‸ths" keys \n}\n`)).toEqual(fifths);
    expect(goneTo(`${rest}routine "R" {\n  "Fif‸ths keys\n}\n`)).toEqual({});
    expect(goneTo(`${rest}exercise "More" like "Fif‸ths" tempo {\n}\n`)).toEqual(fifths);
    expect(goneTo(`${rest}term "T" for "Sen‸iors", {\n}\n`)).toEqual({
      "plan.practice": ['level "⟦Seniors⟧"'],
    });
    expect(goneTo(`${rest}term "T" for {\n weeks 1 {\n Mon {\n "Fif‸ths"\n}\n}\n}\n`)).toEqual(fifths);
    expect(goneTo(`${rest}record of "T" {\n  week "Sen‸iors" done\n}\n`)).toEqual({
      "plan.practice": ['level "⟦Seniors⟧"'],
    });
  });

  test("letters beyond the basic plane count twice, as editors count them", () => {
    expect(goneTo('exercise "🎺 𝄞 fifths" { }\nroutine "🎺" { "🎺 𝄞 fif‸ths" }\n')).toEqual({
      "plan.practice": ['exercise "⟦🎺 𝄞 fifths⟧" { }'],
    });
  });

  test("accents are the same composed and decomposed, curly quotes as good as straight ones", () => {
    const composed = "Fr\u00e8re";
    const decomposed = "Fre\u0300re";
    expect(goneTo(`exercise “${decomposed}” { }\nroutine "R" { "‸${composed}" }\n`)).toEqual({
      "plan.practice": [`exercise “⟦${decomposed}⟧” { }`],
    });
  });
});
