import { describe, expect, test } from "vitest";
import type { DocumentSymbol } from "vscode-languageserver-types";
import { documentSymbols } from "../../../server/features/document-symbols";
import { asWindows, drawnRanges, markedLines, opened } from "./opened";
import { SMALL_STUDIO } from "./small-studio";

/** The outline as a person sees it, two spaces a step. */
function seen(symbols: readonly DocumentSymbol[], indent = ""): string[] {
  return symbols.flatMap(({ name, detail, children }) => [
    `${indent}${name}${detail === undefined ? "" : ` · ${detail}`}`,
    ...seen(children ?? [], `${indent}  `),
  ]);
}

function flat(symbols: readonly DocumentSymbol[]): DocumentSymbol[] {
  return symbols.flatMap((symbol) => [symbol, ...flat(symbol.children ?? [])]);
}

function outline(picture: string, path?: string, change?: (text: string) => string): string[] {
  const studio = opened(picture, change);
  return seen(documentSymbols(studio.checked, path ?? studio.path));
}

const TERM = `term "Autumn" for "Seniors", "K. M." {
  from 2026-09-07 to 2026-12-11
  booked every Thu "Wind band" { clock 40 min }
  concert 2026-11-20 "Harbour concert"
  weeks 1 to 4, 6 {
    Mon to Fri "Morning" 15 min {
      "Slow fifths"  keys C up by half step to G  tempo 50 to 58  twice
      rest 1 min
      short 5 min { "Slow fifths" in C once }
    }
    Sat routine "Morning basics"
    Sun { "Songs" once }
  }
  change "K. M." { leave out "Slow fifths" }
}
`;

describe("document symbols", () => {
  test.each([undefined, asWindows])("a term down to what is practised", (change) => {
    expect(outline(TERM, "plan.practice", change)).toEqual([
      "Autumn · for Seniors, K. M.",
      "  Wind band · booked every Thu",
      "  Harbour concert · concert 2026-11-20",
      "  weeks 1 to 4, 6",
      "    Morning · Mon to Fri, 15 min",
      "      Slow fifths · keys C up by half step to G  tempo 50 to 58  twice",
      "      short · 5 min",
      "        Slow fifths · in C  once",
      "    Morning basics · Sat",
      "    session · Sun",
      "      Songs · once",
      "  K. M. · change",
    ]);
  });

  test("the other declarations, without the use lines", () => {
    expect(outline(SMALL_STUDIO, "studio.practice")).toEqual([
      "Saltmarsh brass · studio",
      "Long tones · area",
      "Flow · area",
    ]);
    expect(outline(SMALL_STUDIO, "book.practice")).toEqual([
      "Slow fifths · Long tones",
      "Slow fifths, tongued · like Slow fifths",
      "Morning basics · routine, 15 min",
      "  Slow fifths · twice",
      "  short · 5 min",
      "    Slow fifths · once",
    ]);
    expect(outline(SMALL_STUDIO, "players.practice")).toEqual(["Seniors · level", "K. M. · like Seniors"]);
    expect(outline(SMALL_STUDIO, "2026/record.practice")).toEqual(["Autumn · record"]);
    expect(outline("studio { tuning 442 Hz }\n")).toEqual(["studio"]);
  });

  test("what is chosen is the name, and lies inside", () => {
    const studio = opened(TERM);
    const symbols = flat(documentSymbols(studio.checked, studio.path));
    const chosen = symbols.map(({ selectionRange }) => selectionRange);
    expect(markedLines(drawnRanges(studio.file(studio.path), chosen))).toEqual([
      'term "⟦Autumn⟧" for "Seniors", "K. M." {',
      'booked every Thu "⟦Wind band⟧" { clock 40 min }',
      'concert 2026-11-20 "⟦Harbour concert⟧"',
      "⟦weeks 1 to 4, 6⟧ {",
      'Mon to Fri "⟦Morning⟧" 15 min {',
      '"⟦Slow fifths⟧"  keys C up by half step to G  tempo 50 to 58  twice',
      '⟦short⟧ 5 min { "⟦Slow fifths⟧" in C once }',
      'Sat routine "⟦Morning basics⟧"',
      '⟦Sun⟧ { "⟦Songs⟧" once }',
      'change "⟦K. M.⟧" { leave out "Slow fifths" }',
    ]);
  });

  test("a declaration whose first line cannot be read yet keeps its name", () => {
    expect(outline('term "🎺 Autumn" for {\n  from 2026-09-07 to 2026-12-11\n}\narea "Flow"\n')).toEqual([
      "🎺 Autumn",
      "Flow · area",
    ]);
    expect(outline('exercise "A\narea ""\nlev\n')).toEqual(["A · exercise", "area · area"]);
  });

  test("nothing in an empty file, or where there is none", () => {
    expect(outline("")).toEqual([]);
    expect(outline("# only a comment\n")).toEqual([]);
    expect(outline("", "elsewhere.practice")).toEqual([]);
  });
});
