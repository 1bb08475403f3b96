import { describe, expect, test } from "vitest";
import { readSource } from "../../../grammar/pieces";
import { definition } from "../../../server/features/definition";
import { documentLinks } from "../../../server/features/links";
import { references } from "../../../server/features/references";
import { checkSources } from "../../../server/workspace/check-sources";
import { asWindows, drawnRanges, markedLines, opened, PLACES } from "./opened";
import { SMALL_STUDIO } from "./small-studio";

function linked(picture: string, path?: string, change?: (text: string) => string) {
  const studio = opened(picture, change);
  const links = documentLinks(studio.checked, path ?? studio.path, PLACES);
  return {
    lines: markedLines(
      drawnRanges(
        studio.file(path ?? studio.path),
        links.map(({ range }) => range),
      ),
    ),
    targets: links.map(({ target, tooltip }) => `${target} · ${tooltip}`),
  };
}

describe("document links", () => {
  test.each([undefined, asWindows])("the path of each use line", (change) => {
    expect(linked(SMALL_STUDIO, "2026/autumn.practice", change)).toEqual({
      lines: ['use "⟦../book.practice⟧"', 'use "⟦../players.practice⟧"'],
      targets: [
        "plans:/book.practice · Open book.practice",
        "plans:/players.practice · Open players.practice",
      ],
    });
  });

  test("a path written with other capitals leads to the file that is meant", () => {
    expect(linked('--- 🎺.practice\nuse "./BOOK.practice"\n--- book.practice\narea "A"\n').targets).toEqual([
      "plans:/book.practice · Open book.practice",
    ]);
  });

  test("a path that is a link of the disk leads to the file behind it, as definition and references do", () => {
    const source = (path: string, text: string) => [path, { path, text, tree: readSource(text) }] as const;
    const checked = checkSources({
      asked: ["term.practice"],
      sources: new Map([
        source("term.practice", 'use "link.practice"\n'),
        source("shared/book.practice", 'area "A"\n'),
      ]),
      failures: new Map(),
      aliases: new Map([["link.practice", "shared/book.practice"]]),
      known: new Set(["link.practice"]),
    });
    const position = { line: 0, character: 8 };
    const uri = "plans:/shared/book.practice";
    expect(documentLinks(checked, "term.practice", PLACES)).toMatchObject([{ target: uri }]);
    expect(definition(checked, "term.practice", position, PLACES)).toMatchObject([{ targetUri: uri }]);
    expect(references(checked, "term.practice", position, true, PLACES)).toMatchObject([
      { uri: "plans:/term.practice" },
    ]);
  });

  test("no link where there is no such file, no path yet, or no file at all", () => {
    const nothing = { lines: [], targets: [] };
    expect(linked('use "nowhere.practice"\nuse \nuse "\narea "A"\n')).toEqual(nothing);
    expect(linked("")).toEqual(nothing);
    expect(documentLinks(opened("").checked, "elsewhere.practice", PLACES)).toEqual([]);
  });
});
