import { describe, expect, test } from "vitest";
import type { Range, SemanticTokens } from "vscode-languageserver-types";
import {
  SEMANTIC_TOKENS_LEGEND,
  semanticTokens,
  semanticTokensInRange,
} from "../../../server/features/semantic-tokens";
import { asWindows, drawnRanges, markedLines, opened } from "./opened";
import { SMALL_STUDIO } from "./small-studio";

interface Token {
  readonly range: Range;
  readonly what: string;
}

/** Tokens as the protocol sends them, with what they are. */
function read({ data }: SemanticTokens): Token[] {
  const tokens: Token[] = [];
  let [line, character] = [0, 0];
  for (let i = 0; i < data.length; i += 5) {
    const [lines = 0, characters = 0, length = 0, type = 0, modifiers = 0] = data.slice(i, i + 5);
    character = lines > 0 ? characters : character + characters;
    line += lines;
    const names = SEMANTIC_TOKENS_LEGEND.tokenModifiers.filter((_, bit) => (modifiers & (1 << bit)) !== 0);
    tokens.push({
      range: { start: { line, character }, end: { line, character: character + length } },
      what: [SEMANTIC_TOKENS_LEGEND.tokenTypes[type], ...names].join(" "),
    });
  }
  return tokens;
}

/** The lines that hold tokens of each kind. */
function coloured(picture: string, path?: string, change?: (text: string) => string) {
  const studio = opened(picture, change);
  const file = studio.file(path ?? studio.path);
  const tokens = read(semanticTokens(studio.checked, file.path));
  const kinds = [...new Set(tokens.map(({ what }) => what))].sort();
  return Object.fromEntries(
    kinds.map((kind) => [
      kind,
      markedLines(
        drawnRanges(
          file,
          tokens.filter(({ what }) => what === kind).map(({ range }) => range),
        ),
      ),
    ]),
  );
}

describe("semantic tokens", () => {
  test.each([undefined, asWindows])("names by what bears them, over several declarations", (change) => {
    expect(coloured(SMALL_STUDIO, "2026/autumn.practice", change)).toEqual({
      class: ['term "Autumn" for "⟦Seniors⟧", "⟦K. M.⟧" {', 'change "⟦K. M.⟧" {'],
      enumMember: ['"Slow fifths" in ⟦C⟧ twice'],
      function: [
        '"⟦Slow fifths⟧" in C twice',
        'replace "⟦Slow fifths⟧" with "⟦Slow fifths, tongued⟧" weeks 1 to 3',
        'leave out "⟦Slow fifths⟧" week 4',
      ],
      keyword: ['Mon to Fri "Slow fifths" 15 ⟦min⟧ {'],
      "type declaration": ['term "⟦Autumn⟧" for "Seniors", "K. M." {'],
    });
    expect(coloured(SMALL_STUDIO, "studio.practice", change)).toEqual({
      "namespace declaration": ['area "⟦Long tones⟧"', 'area "⟦Flow⟧"'],
      "type declaration": ['studio "⟦Saltmarsh brass⟧"'],
    });
  });

  test("a key and not a word, notes, degrees and partials, units, codes and instruments", () => {
    const text = `exercise "A" {
  key Bb harmonic minor
  music { pickup 1/4 F#4 | p (C4 E♭4) rest free 12 s key A
    minor half A4 }
  rest 1 min 30 s
  activity fingering
  let rest stand because "C4"
}
exercise "B" { degrees from C4 { 1/4 1 -7 b3 } }
exercise "C" { partials { half 2 3 } }
level "L" { instrument trumpet in Bb }
studio { finding week-climbs off }
`;
    expect(coloured(text)).toEqual({
      enumMember: ["key ⟦Bb⟧ harmonic minor", "music { pickup 1/4 F#4 | p (C4 E♭4) rest free 12 s key ⟦A⟧"],
      "class declaration": ['level "⟦L⟧" { instrument trumpet in Bb }'],
      "function declaration": [
        'exercise "⟦A⟧" {',
        'exercise "⟦B⟧" { degrees from C4 { 1/4 1 -7 b3 } }',
        'exercise "⟦C⟧" { partials { half 2 3 } }',
      ],
      keyword: ["music { pickup 1/4 F#4 | p (C4 E♭4) rest free 12 ⟦s⟧ key A", "rest 1 ⟦min⟧ 30 ⟦s⟧"],
      property: [
        "activity ⟦fingering⟧",
        'let ⟦rest⟧ stand because "C4"',
        'level "L" { instrument ⟦trumpet in Bb⟧ }',
        "studio { finding ⟦week-climbs⟧ off }",
      ],
      variable: [
        "music { pickup 1/4 ⟦F#4⟧ | p (⟦C4⟧ ⟦E♭4⟧) rest free 12 s key A",
        "minor half ⟦A4⟧ }",
        'exercise "B" { degrees from ⟦C4⟧ { 1/4 ⟦1⟧ ⟦-7⟧ ⟦b3⟧ } }',
        'exercise "C" { partials { half ⟦2⟧ ⟦3⟧ } }',
      ],
    });
  });

  test("a name that nobody bears is unmarked, also while its line cannot be read", () => {
    expect(coloured('exercise "🎺 A"\nroutine "R" {\n  "Nobody" once\n  "🎺 A" keys \n  "B\n}\n')).toEqual({
      function: ['"⟦🎺 A⟧" keys'],
      "function declaration": ['exercise "⟦🎺 A⟧"'],
      "method declaration": ['routine "⟦R⟧" {'],
    });
  });

  test("of a range only the declarations it touches", () => {
    const studio = opened('area "A"\narea "B"\narea "C"\narea "D"\n');
    const at = (line: number) => ({ line, character: 3 });
    const found = read(semanticTokensInRange(studio.checked, studio.path, { start: at(1), end: at(2) }));
    expect(
      markedLines(
        drawnRanges(
          studio.file(studio.path),
          found.map(({ range }) => range),
        ),
      ),
    ).toEqual(['area "⟦B⟧"', 'area "⟦C⟧"']);
  });

  test("nothing in an empty file, or where there is none", () => {
    const { checked } = opened("");
    expect(semanticTokens(checked, "plan.practice")).toEqual({ data: [] });
    expect(semanticTokens(checked, "elsewhere.practice")).toEqual({ data: [] });
    const start = { line: 0, character: 0 };
    expect(semanticTokensInRange(checked, "elsewhere.practice", { start, end: start })).toEqual({ data: [] });
  });
});
