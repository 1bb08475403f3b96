import { describe, expect, test } from "vitest";
import { DocumentHighlightKind } from "vscode-languageserver-types";
import { documentHighlights } from "../../../server/features/document-highlight";
import { asWindows, drawnRanges, markedLines, opened } from "./opened";
import { cursorIn } from "./small-studio";

function shown(picture: string, change?: (text: string) => string) {
  const studio = opened(picture, change);
  const found = documentHighlights(studio.checked, studio.path, studio.position);
  const of = (kind: DocumentHighlightKind): string[] =>
    markedLines(
      drawnRanges(
        studio.file(studio.path),
        found.filter((each) => each.kind === kind).map(({ range }) => range),
      ),
    );
  return { written: of(DocumentHighlightKind.Write), read: of(DocumentHighlightKind.Read) };
}

describe("document highlight", () => {
  test.each([undefined, asWindows])(
    "where it is declared and where it is asked for, in this file alone",
    (change) => {
      expect(shown(cursorIn("book.practice", 'exercise "Sl'), change)).toEqual({
        written: ['exercise "⟦Slow fifths⟧" {'],
        read: [
          'exercise "Slow fifths, tongued" like "⟦Slow fifths⟧" {',
          '"⟦Slow fifths⟧" twice',
          'short 5 min { "⟦Slow fifths⟧" once }',
        ],
      });
      expect(shown(cursorIn("2026/autumn.practice", 'leave out "Sl'), change).written).toEqual([]);
      expect(shown(cursorIn("2026/autumn.practice", 'leave out "Sl'), change).read).toHaveLength(3);
    },
  );

  test("a name that nobody bears, wherever it is written alike", () => {
    expect(shown('routine "R" {\n  "🎺 Nob‸ody" once\n  "🎺 Nobody" keys\n}\n')).toEqual({
      written: [],
      read: ['"⟦🎺 Nobody⟧" once', '"⟦🎺 Nobody⟧" keys'],
    });
  });

  test("nothing elsewhere", () => {
    const nothing = { written: [], read: [] };
    expect(shown("‸")).toEqual(nothing);
    expect(shown('exercise "A" { aim "A‸" }\n')).toEqual(nothing);
    expect(shown('exer‸cise "A"\n')).toEqual(nothing);
    expect(documentHighlights(opened("").checked, "elsewhere.practice", { line: 0, character: 0 })).toEqual(
      [],
    );
  });
});
