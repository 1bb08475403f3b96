import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { format } from "../../../grammar/format";
import { changedRuns } from "../../../server/features/changed-runs";
import { formatDocument, formatRange } from "../../../server/features/formatting";
import { rangeOf } from "../../../server/features/lines-of";
import { FIXED } from "../music/fixed-seed";
import { asWindows, drawnRanges, edited, opened } from "./opened";

/** What of a text would change, drawn into it. */
function changes(text: string): string {
  const studio = opened(text);
  const edits = formatDocument(studio.checked, studio.path);
  return drawnRanges(
    studio.file(studio.path),
    edits.map(({ range }) => range),
  );
}

function whole(text: string, change?: (text: string) => string): string {
  const studio = opened(text, change);
  return edited(studio.file(studio.path), formatDocument(studio.checked, studio.path));
}

/** A text after the part of it between the ⟦ ⟧ was laid out. */
function part(picture: string): string {
  const [before = "", inside = "", after = ""] = picture.split(/[⟦⟧]/);
  const studio = opened(before + inside + after);
  const file = studio.file(studio.path);
  const range = rangeOf(file, before.length, before.length + inside.length);
  return edited(file, formatRange(studio.checked, studio.path, range));
}

const UNTIDY = `# The book.

exercise   "🎺 A" {
  in "B"
  key       C major
  meter 4/4
  tempo     1/4 = 60
}


area   "B"
area "C" {
}
`;

describe("formatting a whole file", () => {
  test("changes the lines that differ and leaves the others alone", () => {
    expect(changes(UNTIDY)).toBe(`# The book.

⟦exercise   "🎺 A" {
  in "B"
⟧  key       C major
⟦  meter 4/4
⟧  tempo     1/4 = 60
}
⟦
⟧
⟦area   "B"
⟧area "C" {
}
`);
    expect(whole(UNTIDY)).toBe(format(UNTIDY));
  });

  test("keeps line ends and the byte order mark", () => {
    expect(whole(UNTIDY, asWindows)).toBe(asWindows(format(UNTIDY)));
    expect(whole(format(UNTIDY), asWindows)).toBe(asWindows(format(UNTIDY)));
  });

  test("has nothing to do where all is well, or where there is nothing", () => {
    expect(changes(format(UNTIDY))).toBe(format(UNTIDY));
    expect(changes("")).toBe("");
    expect(formatDocument(opened("").checked, "elsewhere.practice")).toEqual([]);
  });

  test("leaves alone what cannot be read, and lays out what stands beside it", () => {
    expect(whole('exercise "A" {\n      tempo\n\narea    "B"\nlevel   "C" {\n range C4 to\n}\n')).toBe(
      'exercise "A" {\n      tempo\n\narea "B"\nlevel "C" {\n  range C4 to\n}\n',
    );
  });

  test("gives the last line its end", () => {
    expect(whole('area "A"')).toBe('area "A"\n');
  });
});

describe("formatting a range", () => {
  test("lays out the declarations it touches, each as a whole", () => {
    const untidy = (name: string): string => `area   "${name}" {\naim   "x"\n}\n`;
    const tidy = (name: string): string => `area "${name}" {\n  aim       "x"\n}\n`;
    expect(part(`${untidy("A")}area   "B" {\na⟦im   "x"\n}\n${untidy("C")}are⟧a   "D"\n`)).toBe(
      `${untidy("A")}${tidy("B")}${tidy("C")}area "D"\n`,
    );
    // Whole lines are marked down to the start of the next one.
    expect(part(`⟦${untidy("A")}⟧${untidy("B")}`)).toBe(`${tidy("A")}${untidy("B")}`);
    expect(part(`${untidy("A")}a⟦⟧rea   "B"\n`)).toBe(`${untidy("A")}area "B"\n`);
    expect(part(`${untidy("A")}⟦⟧`)).toBe(tidy("A"));
  });

  test("nothing where there is nothing", () => {
    const { checked } = opened("");
    const start = { line: 0, character: 0 };
    expect(formatRange(checked, "plan.practice", { start, end: start })).toEqual([]);
    expect(formatRange(checked, "elsewhere.practice", { start, end: start })).toEqual([]);
  });
});

describe("changed runs", () => {
  const lines = fc
    .array(fc.constantFrom("a", "b", "c", ""), { maxLength: 30 })
    .chain((all) => fc.constantFrom("\n", "\r\n", "\r").map((end) => all.join(end)));

  test("lead from any text to any other, from the top down", () => {
    fc.assert(
      fc.property(lines, lines, (before, after) => {
        let text = "";
        let at = 0;
        for (const run of changedRuns(before, after)) {
          expect(run.start).toBeGreaterThanOrEqual(at);
          text += before.slice(at, run.start) + run.text;
          at = run.end;
        }
        expect(text + before.slice(at)).toBe(after);
      }),
      FIXED,
    );
  });

  test("keep the lines in between, as many as can be", () => {
    expect(changedRuns("a\nb\nc\nd\ne\n", "a\nx\nc\ne\nf\n")).toEqual([
      { start: 2, end: 4, text: "x\n" },
      { start: 6, end: 8, text: "" },
      { start: 10, end: 10, text: "f\n" },
    ]);
    expect(changedRuns("a\n", "a\n")).toEqual([]);
  });

  test("take one run where too much differs to look closely", () => {
    const many = (word: string): string => Array.from({ length: 500 }, (_, i) => `${word}${i}\n`).join("");
    const before = `top\n${many("a")}same\n${many("b")}end\n`;
    const after = `top\n${many("c")}same\n${many("d")}end\n`;
    expect(changedRuns(before, after)).toEqual([
      { start: 4, end: before.length - 4, text: after.slice(4, -4) },
    ]);
  });
});
