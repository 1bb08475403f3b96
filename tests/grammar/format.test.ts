import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { format } from "../../grammar/format";
import type { SourceTree } from "../../grammar/piece";
import { readSource } from "../../grammar/pieces";
import { oneFile } from "../fixture";
import { MISTAKES } from "./mistakes";
import { bare, SAMPLES, STUDIO } from "./read";

/** What must survive formatting: the trees and the comments. */
function kept({ pieces }: SourceTree): unknown {
  return pieces
    .filter(({ declaration, comments }) => declaration !== undefined || comments.length > 0)
    .map(({ declaration, comments }) => [bare(declaration), comments.filter((comment) => comment !== "")]);
}

function expectKept(text: string): void {
  const once = format(text);
  expect(kept(readSource(once))).toEqual(kept(readSource(text)));
  expect(format(once)).toBe(once);
}

describe("format", () => {
  test("lays fields out in a column and clauses two spaces apart", () => {
    const text =
      'exercise   "A"   like "B"\n{\n   in "C"\n\tkey   C   major\n tempo quarter=72\n music{1/4 C4(D4 E4)lip(F4 G4)|}\n rest 20s\n}\n' +
      'routine "R" 10min {\n"A" in C tempo 50 to 58 keys? \n"A"   tempo 1/8=100 twice   drop when tired { aim "x" goal "y" by week 3 }\n}';
    expect(format(text)).toBe(
      [
        'exercise "A" like "B" {',
        '  in        "C"',
        "  key       C major",
        "  tempo     quarter = 72",
        "  music     { 1/4 C4 (D4 E4) lip (F4 G4) | }",
        "  rest      20 s",
        "}",
        'routine "R" 10 min {',
        '  "A" in C tempo 50 to 58 keys?',
        '  "A"  tempo 1/8 = 100  twice  drop when tired { aim "x"  goal "y" by week 3 }',
        "}",
        "",
      ].join("\n"),
    );
  });

  test("keeps comments and at most one blank line", () => {
    const text = [
      "# head",
      "",
      "",
      "# above",
      'exercise "A" { # beside',
      "",
      "",
      "  # over in",
      '  in "C"   # behind in',
      "",
      "",
      "  # over key",
      "",
      "  key C",
      "  # last",
      "}",
      "",
      "",
      "",
      "# tail",
    ].join("\n");
    expect(format(text)).toBe(
      [
        "# head",
        "",
        "# above",
        'exercise "A" {  # beside',
        "  # over in",
        '  in        "C"  # behind in',
        "",
        "  # over key",
        "",
        "  key       C",
        "  # last",
        "}",
        "",
        "# tail",
        "",
      ].join("\n"),
    );
    expectKept(text);
  });

  test("keeps the author's lines and comments in music", () => {
    const text = 'exercise "A" {\n  music { 1/4 C4 | # one\n\n\nD4 repeat [\nE4 | F4\n] |\n}\n}\n';
    expect(format(text)).toBe(
      'exercise "A" {\n  music     {\n    1/4 C4 | # one\n\n    D4 repeat [\n      E4 | F4\n    ] |\n  }\n}\n',
    );
    expectKept(text);
  });

  test("opens a block that is too wide for one line", () => {
    const aims = Array.from({ length: 5 }, (_, i) => `aim "something to listen for, ${i}"`);
    const text = `area "A" { ${aims.join("  ")} }\n`;
    expect(format(text).split("\n")).toHaveLength(8);
    expectKept(text);
  });

  test("leaves a piece alone whose braces or quotes do not match, and formats the others", () => {
    const broken = 'exercise "A" {\n   in    "C"\n';
    expect(format(`${broken}\narea   "B"\n`)).toBe(`${broken}\narea "B"\n`);
    expect(format('area   "B\n\narea   "C"\n')).toBe('area   "B\n\narea "C"\n');
  });

  test("keeps the file's line ends and drops a byte order mark", () => {
    expect(format('\ufeffarea   "A"\r\n\r\n\r\narea "B"')).toBe('area "A"\r\n\r\narea "B"\r\n');
    expect(format('area "A"\r\narea "B"\n\narea "C"\n')).toBe('area "A"\narea "B"\n\narea "C"\n');
  });

  test("writes sharps, flats, quotes and breaths in one way", () => {
    expect(format("exercise “A” { music { 1/4 F♯4 B♭4 ’ } }\n")).toBe(
      'exercise "A" { music { 1/4 F#4 Bb4 \' } }\n',
    );
  });

  test("makes nothing of nothing", () =>
    expect([format(""), format("\n\n"), format("\ufeff")]).toEqual(["", "", ""]));
});

describe("formatting keeps the tree and changes nothing the second time", () => {
  test.each(SAMPLES.map(([path, text]) => [path, text]))("%s", (_path, text) => expectKept(text));

  test.each(MISTAKES.map(({ picture }) => oneFile(picture).text))("%s", (text) => expectKept(text));

  test("when the spaces of a line are changed", () => {
    const lines = STUDIO.split("\n");
    fc.assert(
      fc.property(fc.nat(lines.length - 1), fc.constantFrom("", "\t", "      ", "\u00a0"), (at, space) => {
        const text = lines.map((line, i) => (i === at ? space + line.trim() : line)).join("\n");
        expect(kept(readSource(format(text)))).toEqual(kept(readSource(text)));
      }),
      { seed: 20260907, numRuns: 150 },
    );
  });

  test("when a token is lost", () => {
    fc.assert(
      fc.property(fc.nat(STUDIO.length - 1), fc.integer({ min: 1, max: 6 }), (at, length) => {
        expectKept(STUDIO.slice(0, at) + STUDIO.slice(at + length));
      }),
      { seed: 20260907, numRuns: 150 },
    );
  });
});
