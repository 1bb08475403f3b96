import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { format } from "../../grammar/format";
import type { Piece } from "../../grammar/piece";
import { readSource } from "../../grammar/pieces";
import { LineEnd, lex, WORD_TOKENS } from "../../grammar/tokens";
import { bare, problemsOf, SAMPLES, STUDIO } from "./read";

/** What must hold of every text, however wrong. */
function expectSound(text: string): void {
  const tree = readSource(text);
  expect(tree.pieces.map((piece) => piece.text).join("")).toBe(text);
  for (const piece of tree.pieces) {
    for (const { span, message, mend } of piece.problems) {
      expect(span.start).toBeGreaterThanOrEqual(0);
      expect(span.end).toBeGreaterThan(span.start);
      expect(span.end).toBeLessThanOrEqual(piece.text.length);
      expect(message).toMatch(/[.?]$/);
      expect(message).not.toMatch(/undefined|NaN|something else|Keyword-/);
      if (mend !== undefined) expect(mend.text).not.toBe(piece.text.slice(span.start, span.end));
    }
    expectInside(piece.declaration, piece.text.length);
  }
  expect(() => format(text)).not.toThrow();
}

/** Every span of the tree lies inside of its piece. */
function expectInside(node: unknown, length: number): void {
  if (typeof node !== "object" || node === null) return;
  for (const [key, value] of Object.entries(node)) {
    if (key === "span") {
      const { start, end } = value as { start: number; end: number };
      if (!(start >= 0 && start <= end && end <= length)) {
        throw new Error(`span ${start} to ${end} does not lie inside of ${length} letters`);
      }
    } else expectInside(value, length);
  }
}

const settings = { seed: 20260907, numRuns: 400 };

describe("reading never throws, and its ranges lie inside the text:", () => {
  test("any letters", () => {
    fc.assert(fc.property(fc.string({ unit: "binary", maxLength: 200 }), expectSound), settings);
    fc.assert(fc.property(fc.string({ unit: "grapheme", maxLength: 100 }), expectSound), settings);
  });

  test("any half of a pair beyond the basic plane", () => {
    fc.assert(
      fc.property(
        fc.array(fc.constantFrom("\ud83c", "\udfba", '"', "a", "\n", "{", "#"), { maxLength: 40 }),
        (letters) => expectSound(letters.join("")),
      ),
      settings,
    );
  });

  const scraps = [
    ...WORD_TOKENS.keys(),
    ..."{ } [ ] ( ) | ' , = % # - – : 1/4 1/8. 4/4 12 2.5 -3 b3 #4 C4 F#5 Bb C 2026-09-07 7.9.2026 5:4".split(
      " ",
    ),
    '"A"',
    '"B',
    "“C”",
    "xyz",
    "é",
    "# c\n",
    "\n",
    "\r\n",
    "\u0000",
    "\ud83c\udfba",
  ];
  const soup = fc
    .array(fc.tuple(fc.constantFrom(...scraps), fc.constantFrom(" ", " ", " ", "\n", "")), { maxLength: 60 })
    .map((parts) => parts.flat().join(""));

  test("any soup of words and signs", () => {
    fc.assert(fc.property(soup, expectSound), { ...settings, numRuns: 1500 });
  });

  test("any soup inside of each block", () => {
    const heads = [
      'exercise "A" {\n',
      'exercise "A" { music {',
      'exercise "A" { degrees from C4 {',
      'exercise "A" { partials { repeat [',
      'level "A" { each day {',
      'term "A" for "B" {\n',
      'term "A" for "B" { weeks 1 to 2 { Mon "M" {\n',
      'routine "A" {\n"B" ',
      'term "A" for "B" { change "C" {\n',
      'record of "A" {\nweek 1 "B" ',
      "studio {\n",
    ];
    fc.assert(
      fc.property(fc.constantFrom(...heads), soup, (head, words) => expectSound(head + words)),
      { ...settings, numRuns: 1500 },
    );
  });

  test("a line of the studio with its tokens in another order", () => {
    const lines = STUDIO.split("\n").filter((line) => /\S/.test(line));
    fc.assert(
      fc.property(
        fc.constantFrom(...lines).chain((line) => {
          const words = lex(line).map(({ image }) => image);
          return fc.tuple(fc.shuffledSubarray(words, { minLength: 0 }), fc.constantFrom(...lines));
        }),
        ([words, next]) => expectSound(`exercise "A" {\n${words.join(" ")}\n${next}\n`),
      ),
      settings,
    );
  });
});

describe("what is broken in one declaration is told about there alone:", () => {
  const files = [["reference", STUDIO] as const, ...SAMPLES];

  /** The problems of a changed text may only lie between the declarations around the change. */
  function expectLocal(text: string, from: number, to: number, put: string, touches = to): void {
    const { pieces, starts } = readSource(text);
    const touched = pieces.findIndex((piece, i) => from < starts[i]! + piece.text.length);
    const found = pieces.findIndex((piece, i) => touches <= starts[i]! + piece.text.length);
    const last = found < 0 ? pieces.length - 1 : found;
    const after = readSource(text.slice(0, from) + put + text.slice(to));
    const start = starts[touched]!;
    const shift = put.length - (to - from);
    const end = starts[last]! + pieces[last]!.text.length + shift;
    for (const { span, message } of problemsOf(after)) {
      const inside = span.start >= start && span.end <= end;
      if (!inside) throw new Error(`"${message}" stands outside of what was changed`);
    }
    // The declarations that were not touched are still read as before. (A comment may have come to stand above.)
    const told = (piece: Piece): string =>
      JSON.stringify({ ...(bare(piece.declaration) as object), trivia: 0 });
    const read = new Set(after.pieces.map(told));
    for (const [i, piece] of pieces.entries()) {
      if (i < touched || i > last) expect(read, piece.text).toContain(told(piece));
    }
  }

  const anyFile = fc.constantFrom(...files);

  test("every prefix of the reference's studio", () => {
    for (let end = 1; end < STUDIO.length; end += 7) {
      const text = STUDIO.slice(0, end);
      const tree = readSource(text);
      const start = tree.starts.at(-1)!;
      for (const { span } of problemsOf(tree)) expect(span.start).toBeGreaterThanOrEqual(start);
    }
  });

  test("some prefixes of every sample", () => {
    fc.assert(
      fc.property(anyFile, fc.double({ min: 0, max: 1, noNaN: true }), ([, whole], share) => {
        const tree = readSource(whole.slice(0, Math.floor(whole.length * share)));
        const start = tree.starts.at(-1) ?? 0;
        for (const { span } of problemsOf(tree)) expect(span.start).toBeGreaterThanOrEqual(start);
      }),
      { ...settings, numRuns: 150 },
    );
  });

  test("every sample with one token taken away", () => {
    fc.assert(
      fc.property(anyFile, fc.double({ min: 0, max: 0.999, noNaN: true }), ([, text], share) => {
        const near = Math.floor(text.length * share);
        const start = text.lastIndexOf("\n", near) + 1;
        const tokens = lex(text.slice(start, start + 200));
        const token = tokens[Math.floor(tokens.length / 3)];
        if (token === undefined) return;
        const from = start + token.startOffset;
        const end = from + token.image.length;
        // A line end that is lost joins the lines of two declarations.
        if (token.tokenType === LineEnd) expectLocal(text, from, end, "", end + 1);
        else expectLocal(text, from, end, "");
      }),
      { ...settings, numRuns: 300 },
    );
  });

  test("every sample with one line taken away", () => {
    fc.assert(
      fc.property(anyFile, fc.double({ min: 0, max: 0.999, noNaN: true }), ([, text], share) => {
        const near = Math.floor(text.length * share);
        const start = text.lastIndexOf("\n", near) + 1;
        const end = text.indexOf("\n", start) + 1;
        if (end > start) expectLocal(text, start, end, "");
      }),
      { ...settings, numRuns: 300 },
    );
  });
});

describe("the way a text is encoded does not matter:", () => {
  const treesOf = (text: string): unknown =>
    bare(readSource(text).pieces.map(({ declaration }) => declaration));

  test("line ends", () => {
    for (const [, text] of [["", STUDIO] as const, ...SAMPLES]) {
      expect(treesOf(text.replace(/\n/g, "\r\n"))).toEqual(treesOf(text));
      expect(treesOf(text.replace(/\n/g, "\r"))).toEqual(treesOf(text));
    }
  });

  test("a byte order mark", () => expect(treesOf(`\ufeff${STUDIO}`)).toEqual(treesOf(STUDIO)));

  test("decomposed accents, but the ranges count the letters as they stand", () => {
    const composed = 'exercise "Frère Jacques" {\n  kay C\n}\n';
    expect(treesOf(composed.normalize("NFD"))).toEqual(treesOf(composed));
    const [problem] = problemsOf(readSource(composed.normalize("NFD")));
    expect(problem?.span).toEqual({ start: 30, end: 33 });
  });

  test("letters beyond the basic plane", () => {
    const [problem] = problemsOf(readSource('exercise "🎺🎺" {\n  kay C\n}\n'));
    expect(problem?.span).toEqual({ start: 20, end: 23 });
    expect(readSource('area "🎺"\n').pieces[0]?.declaration).toMatchObject({ name: { text: "🎺" } });
  });

  test("tabs and non-breaking spaces", () => {
    expect(treesOf(STUDIO.replace(/ {2}/g, "\t"))).toEqual(treesOf(STUDIO));
    expect(treesOf('exercise\u00a0"A"\u00a0{\n\u00a0key\u202fC\u00a0major\n}\n')).toEqual(
      treesOf('exercise "A" {\n key C major\n}\n'),
    );
  });
});

describe("hostile texts", () => {
  const nested = [
    "{".repeat(100_000),
    `exercise "A" ${"{".repeat(100_000)}`,
    `exercise "A" { music { ${"[ ".repeat(100_000)}`,
    `exercise "A" { music { ${"repeat [ ".repeat(50_000)}${"] ".repeat(50_000)}} }`,
    `exercise "A" { ${"in { ".repeat(50_000)}${"}".repeat(50_000)} }`,
  ];

  test.each(nested.map((text, i) => [i, text] as const))(
    "nested without end (%i) are refused with one finding",
    (_i, text) => {
      const problems = problemsOf(readSource(text));
      expect(problems.map(({ code }) => code)).toEqual(["too-deep"]);
      expectSound(text);
    },
  );

  test("nested up to the bound are read", () => {
    const music = `${"repeat [ ".repeat(31)}C4 ${"] ".repeat(31)}`;
    expect(problemsOf(readSource(`exercise "A" {\n  music { ${music}}\n}\n`))).toEqual([]);
  });

  test("closing without end", () => {
    const problems = problemsOf(readSource(`area "A"\n${"}".repeat(300)}`));
    expect(problems.length).toBeGreaterThan(0);
    expectSound("}".repeat(20_000));
    expectSound("] ".repeat(20_000));
  });

  test("binary", () => {
    const bytes = Array.from({ length: 4096 }, (_, i) => String.fromCharCode((i * 197) % 256)).join("");
    expectSound(bytes);
    expectSound("\u0000".repeat(10_000));
  });

  test("one endless line", () => {
    expectSound(`exercise "A" { music { 1/4 ${"C4 D4 | ".repeat(20_000)} } }`);
    expectSound(`exercise "A" { ${"x ".repeat(20_000)} }`);
    // More tokens in one run than a call can take arguments.
    expectSound(`exercise [ ${"x ".repeat(150_000)}`);
    expectSound('"'.repeat(20_000));
    expectSound("#".repeat(20_000));
    expectSound("1-".repeat(20_000));
  });

  // Each of these took many seconds while some step looked at the rest of the text for every token.
  test.each([
    ["quotes on one line", `exercise "A" { ${'"a" {b "'.repeat(20_000)}`],
    ["brackets that close nothing", `exercise "A" { music { ${"] ".repeat(50_000)} } }`],
    ["letters that cannot be seen", "\u0001".repeat(200_000)],
    ["wrong notes", `exercise "A" { music { C4 ${"C c4 ".repeat(20_000)} } }`],
    ["wrong lines", `routine "A" {\n${'  "A"  keys C up half step to G\n'.repeat(1000)}}\n`],
    ["braces that are never closed", 'exercise "A" {\n  each {\n'.repeat(5000)],
    ["blank lines", `area "A"\n${"\n".repeat(200_000)}area "B"\n`],
  ])("%s without end are read in time", (_what, text) => {
    const start = performance.now();
    readSource(text);
    expect(performance.now() - start).toBeLessThan(4000);
  });

  test("a letter that cannot be seen, in a name, a comment and between words", () => {
    const codes = (text: string): string[] => problemsOf(readSource(text)).map(({ code }) => code);
    expect(codes('area "A\u0007"\n')).toEqual(["odd-letter"]);
    expect(codes('# c\u0000\narea "A"\n')).toEqual(["odd-letter"]);
    expect(codes('area \u200b"A"\n')).toEqual(["odd-letter"]);
    expect(codes('area "A" {\n  aim \u0001 "x"\n}\n')).toEqual(["odd-letter"]);
  });
});
