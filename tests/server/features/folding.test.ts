import { describe, expect, test } from "vitest";
import { foldingRanges } from "../../../server/features/folding";
import { asWindows, opened } from "./opened";

/** The lines of a text with, at each line a fold begins on, what it reaches to. */
function folded(picture: string, change?: (text: string) => string): string[] {
  const studio = opened(picture, change);
  const lines = studio
    .file(studio.path)
    .text.replace("\ufeff", "")
    .split(/\r\n|\n/);
  return foldingRanges(studio.checked, studio.path).map(
    ({ startLine, endLine, kind }) =>
      `${lines[startLine]?.trim()} … ${lines[endLine]?.trim()}${kind === undefined ? "" : ` (${kind})`}`,
  );
}

describe("folding", () => {
  test.each([undefined, asWindows])(
    "declarations and blocks, down to the line before the closing brace",
    (change) => {
      const text = `term "T" for "S" {
  from 2026-09-07 to 2026-12-11
  weeks 1 {
    Mon {
      "A" once { aim "x" }
    }
  }
}
exercise "🎺" {
  music {
    C4
    D4
  }
}
area "short"
level "one line" { range C4 to C5 }
`;
      expect(folded(text, change)).toEqual([
        'term "T" for "S" { … }',
        "weeks 1 { … }",
        'Mon { … "A" once { aim "x" }',
        'exercise "🎺" { … }',
        "music { … D4",
      ]);
    },
  );

  test("runs of comments and of use lines", () => {
    const text = `# one
# two

# alone
use "a.practice"
# between
use "b.practice"

use "c.practice"
area "A" { # behind
  # first
  # second
  aim "x" # and
  # one
}
`;
    expect(folded(text)).toEqual([
      "# one … # two (comment)",
      'use "a.practice" … use "c.practice" (imports)',
      'area "A" { # behind … # one',
      "# first … # second (comment)",
    ]);
  });

  test("a brace in a comment is none", () => {
    expect(folded('area "A" {\n  # {\n  aim "x"\n}\narea "B"\n')).toEqual(['area "A" { … aim "x"']);
  });

  test("what is still open ends with its declaration, and what cannot be read folds all the same", () => {
    expect(folded('term "T" for {\n  weeks 1 {\n    Mon\n\n')).toEqual([
      'term "T" for { … Mon',
      "weeks 1 { … Mon",
    ]);
    expect(folded('term "T" for {\n  weeks 1 {\n    Mon\n  }\n}\n')).toEqual([
      'term "T" for { … }',
      "weeks 1 { … Mon",
    ]);
  });

  test("of two that begin on one line the longer one", () => {
    expect(folded('term "T" for "S" { weeks 1 {\n  Mon\n} }\n')).toEqual([
      'term "T" for "S" { weeks 1 { … Mon',
    ]);
  });

  test("nothing in an empty file, on one line, or where there is no file", () => {
    expect(folded("")).toEqual([]);
    expect(folded('area "A" { }\n}\n')).toEqual([]);
    expect(foldingRanges(opened("").checked, "elsewhere.practice")).toEqual([]);
  });
});
