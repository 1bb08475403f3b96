import { describe, expect, test } from "vitest";
import { formatOnType } from "../../../server/features/on-type-formatting";
import { asWindows, edited, opened } from "./opened";

/** A text in which the cursor stands behind what was just typed, as it is afterwards. */
function indented(picture: string, typed = "\n", change?: (text: string) => string): string {
  const studio = opened(picture, change);
  const edits = formatOnType(studio.checked, studio.path, studio.position, typed);
  const file = studio.file(studio.path);
  for (const { range } of edits) {
    expect(range.start.line).toBe(studio.position.line);
    expect(range.end.line).toBe(studio.position.line);
  }
  return edited(file, edits);
}

describe("after a newline", () => {
  test.each([
    ["in a declaration", 'exercise "🎺" {\n‸', 'exercise "🎺" {\n  '],
    [
      "in a session",
      'term "T" for "S" {\n  weeks 1 {\n    Mon {\n‸\n    }\n  }\n}\n',
      'term "T" for "S" {\n  weeks 1 {\n    Mon {\n      \n    }\n  }\n}\n',
    ],
    [
      "behind a block",
      'term "T" for "S" {\n  weeks 1 {\n  }\n      ‸',
      'term "T" for "S" {\n  weeks 1 {\n  }\n  ',
    ],
    ["before a closing brace", 'area "A" {\n  aim "x"\n  ‸}\n', 'area "A" {\n  aim "x"\n}\n'],
    [
      "in a bracket of music",
      'exercise "A" {\n  music {\n    repeat [\n‸C4 ]',
      'exercise "A" {\n  music {\n    repeat [\n      C4 ]',
    ],
    ["at the margin, behind a declaration", 'area "A" {\n}\n  ‸', 'area "A" {\n}\n'],
    ["behind a comment that holds a brace", 'area "A" # {\n  ‸', 'area "A" # {\n'],
    ["with text behind the cursor", 'area "A" {\n‸aim "x" }\n', 'area "A" {\n  aim "x" }\n'],
    ["before a declaration", 'area "A" {\n  aim "x"\n‸area "B"\n', 'area "A" {\n  aim "x"\narea "B"\n'],
    ["where tabs stand", 'area "A" {\n\t\t‸', 'area "A" {\n  '],
    ["in an empty file", "‸", ""],
    ["with nothing to do", 'area "A" {\n  ‸', 'area "A" {\n  '],
    ["too many closing braces", "}\n}\n ‸", "}\n}\n"],
  ])("%s", (_, picture, wanted) => {
    expect(indented(picture)).toBe(wanted);
    expect(indented(picture, "\n", asWindows)).toBe(asWindows(wanted));
  });
});

describe("after a closing brace", () => {
  test.each([
    ["under what it closes", 'area "A" {\n  aim "x"\n  }‸\n', 'area "A" {\n  aim "x"\n}\n'],
    [
      "of an inner block",
      'term "T" for "S" {\n  weeks 1 {\n}‸\n}\n',
      'term "T" for "S" {\n  weeks 1 {\n  }\n}\n',
    ],
    ["behind something else", 'area "A" {\n    aim "x" }‸\n', 'area "A" {\n    aim "x" }\n'],
    ["that was not the first", 'area "A" {\n  } }‸\n', 'area "A" {\n  } }\n'],
    ["that closes nothing", "  }‸\n", "}\n"],
  ])("%s", (_, picture, wanted) => {
    expect(indented(picture, "}")).toBe(wanted);
    expect(indented(picture, "}", asWindows)).toBe(asWindows(wanted));
  });

  test("another key does nothing, nor does one in a file that is not there", () => {
    expect(indented('area "A" {\n      x‸', "x")).toBe('area "A" {\n      x');
    expect(formatOnType(opened("").checked, "elsewhere.practice", { line: 0, character: 0 }, "\n")).toEqual(
      [],
    );
  });
});
