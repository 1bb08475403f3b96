import { describe, expect, test } from "vitest";
import type { SelectionRange } from "vscode-languageserver-types";
import { offsetOf } from "../../../server/features/lines-of";
import { selectionRanges } from "../../../server/features/selection-ranges";
import { asWindows, opened } from "./opened";

/** What is selected, from the smallest to the largest. */
function steps(picture: string, change?: (text: string) => string): string[] {
  const studio = opened(picture, change);
  const file = studio.file(studio.path);
  const texts: string[] = [];
  let at: SelectionRange | undefined = selectionRanges(studio.checked, studio.path, [studio.position])[0];
  while (at !== undefined) {
    texts.push(
      file.text.slice(offsetOf(file, at.range.start), offsetOf(file, at.range.end)).replaceAll("\r", ""),
    );
    at = at.parent;
  }
  return texts;
}

describe("selection ranges", () => {
  test.each([undefined, asWindows])("from the word to the file", (change) => {
    const text = `# The long tones.
routine "R" {
  "Slow fif‸ths"  tempo 50 to 58  twice
}
area "Flow"
`;
    const plain = text.replace("‸", "");
    const [, routine] = /(routine[\s\S]*?\n\})/.exec(plain) ?? [];
    expect(steps(text, change)).toEqual([
      "fifths",
      "Slow fifths",
      '"Slow fifths"',
      '"Slow fifths"  tempo 50 to 58  twice',
      '{\n  "Slow fifths"  tempo 50 to 58  twice\n}',
      routine,
      `# The long tones.\n${routine}`,
      plain,
    ]);
  });

  test("through a clause", () => {
    expect(steps('routine "R" { "A"  tempo 50 to 5‸8  twice }').slice(0, 4)).toEqual([
      "58",
      "50 to 58",
      "tempo 50 to 58",
      '"A"  tempo 50 to 58  twice',
    ]);
  });

  test("through music", () => {
    expect(steps('exercise "🎺" { music { repeat [ 1/4 F#‸4 G4 ] } }').slice(0, 4)).toEqual([
      "F#4",
      "repeat [ 1/4 F#4 G4 ]",
      "{ repeat [ 1/4 F#4 G4 ] }",
      "music { repeat [ 1/4 F#4 G4 ] }",
    ]);
  });

  test("what cannot be read: the word, the line, the block", () => {
    expect(steps('area "A" {\n  ai‸n "x"\n}\n')).toEqual([
      "ain",
      'ain "x"',
      '{\n  ain "x"\n}',
      'area "A" {\n  ain "x"\n}',
      'area "A" {\n  ain "x"\n}\n',
    ]);
    expect(steps("nons‸ense here\n").slice(0, 2)).toEqual(["nonsense", "nonsense here"]);
  });

  test("an empty file has the empty selection, one for each position asked for", () => {
    expect(steps("‸")).toEqual([""]);
    const here = { line: 0, character: 0 };
    expect(selectionRanges(opened("").checked, "plan.practice", [here, here])).toHaveLength(2);
    expect(selectionRanges(opened("").checked, "elsewhere.practice", [here])).toEqual([
      { range: { start: here, end: here } },
    ]);
  });
});
