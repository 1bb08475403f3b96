import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { readSource } from "../../grammar/pieces";
import { SAMPLES, STUDIO } from "./read";

const texts = (text: string): string[] => readSource(text).pieces.map((piece) => piece.text);

describe("a file is cut", () => {
  test("at declarations, with the comments directly above them", () => {
    expect(texts('# head\n\n# of A\narea "A"\narea "B"\n\n# of C\n# too\narea "C" {\n}\n# end\n')).toEqual([
      "# head\n\n",
      '# of A\narea "A"\n',
      'area "B"\n\n',
      '# of C\n# too\narea "C" {\n}\n# end\n',
    ]);
  });

  test("at a declaration even where a brace is missing above", () => {
    expect(texts('exercise "A" {\n  in "X"\n\nexercise "B" {\n}\n')).toEqual([
      'exercise "A" {\n  in "X"\n\n',
      'exercise "B" {\n}\n',
    ]);
  });

  test("before lines that have lost their heading", () => {
    expect(texts('area "A" {\n}\n\n  in "X"\n  key C\n}\n\narea "B"\n')).toEqual([
      'area "A" {\n}\n\n',
      '  in "X"\n  key C\n}\n\n',
      'area "B"\n',
    ]);
  });

  test("not at words that only look like declarations", () => {
    expect(texts('area "A" {\n}\narea-like "B"\nareas "C"\n')).toHaveLength(3);
    expect(readSource('area-like "B"\n').pieces[0]?.declaration).toBeUndefined();
  });

  test("not within a name that holds what would begin a comment elsewhere", () => {
    for (const name of ['"A # 1"', "“A # 1”"]) {
      expect(texts(`exercise ${name} {\n  in "X"\n}\narea "B"\n`)).toHaveLength(2);
    }
    expect(texts('area "A { # } half typed\n  aim "x"\n}\narea "B"\n')).toHaveLength(2);
  });

  test("without losing a letter", () => {
    for (const [, text] of SAMPLES) {
      const { pieces, starts } = readSource(text);
      expect(pieces.map((piece) => piece.text).join("")).toBe(text);
      for (const [i, piece] of pieces.entries()) {
        expect(text.slice(starts[i], starts[i]! + piece.text.length)).toBe(piece.text);
      }
    }
  });

  test("into nothing where there is nothing", () => {
    expect(readSource("")).toEqual({ pieces: [], starts: [] });
  });

  test("whatever the line ends are", () => {
    expect(texts('area "A"\r\narea "B"\rarea "C"')).toEqual(['area "A"\r\n', 'area "B"\r', 'area "C"']);
  });

  test("after a byte order mark", () => {
    const { pieces } = readSource('\ufeffarea "A"\n');
    expect(pieces.map(({ declaration }) => declaration?.kind)).toEqual(["area"]);
    expect(pieces[0]?.problems).toEqual([]);
  });
});

describe("a piece that did not change is the same object", () => {
  const before = readSource(STUDIO);
  const pieceOf = (tree: ReturnType<typeof readSource>, heading: string) =>
    tree.pieces.find(({ text }) => text.startsWith(heading));

  test("when nothing changed", () => expect(readSource(STUDIO, before)).toBe(before));

  test("when another declaration was changed", () => {
    const after = readSource(STUDIO.replace("tempo     1/2 = 50", "tempo     1/2 = 52"), before);
    const same = after.pieces.filter((piece, i) => piece === before.pieces[i]);
    expect(same).toHaveLength(before.pieces.length - 1);
    expect(pieceOf(after, 'exercise "Slow fifths" {')).not.toBe(pieceOf(before, 'exercise "Slow fifths" {'));
  });

  test("when lines were put above it", () => {
    const after = readSource(`# a new head\n\n\n${STUDIO}`, before);
    expect(after.pieces.slice(1)).toEqual(before.pieces);
    for (const [i, piece] of after.pieces.slice(1).entries()) expect(piece).toBe(before.pieces[i]);
  });

  test("when it moved to another place", () => {
    const heading = 'exercise "Thirds in motion" {';
    const moved = pieceOf(before, heading)!;
    const after = readSource(moved.text + STUDIO.replace(moved.text, ""), before);
    expect(after.pieces[0]).toBe(moved);
  });

  test("but two declarations of one text are two objects", () => {
    const twice = readSource('area "A"\narea "A"\n');
    expect(twice.pieces[0]).not.toBe(twice.pieces[1]);
    const again = readSource('# x\n\narea "A"\narea "A"\narea "A"\n', twice);
    expect(new Set(again.pieces).size).toBe(again.pieces.length);
  });
});

describe("editing", () => {
  const scraps = [
    "",
    "}",
    "{",
    "\n",
    "\n\n",
    "# note\n",
    'area "New"\n',
    '\nexercise "New" {\n  key C\n}\n',
    '"',
    "  rest equal\n",
    "\r\n",
    "term",
  ];
  const edit = fc.record({
    at: fc.nat(100_000),
    take: fc.oneof(fc.nat(3), fc.nat(400)),
    put: fc.constantFrom(...scraps),
  });
  const base = SAMPLES.find(([path]) => path.includes("book"))?.[1].slice(0, 6000) ?? STUDIO;

  test("gives what a fresh read gives, after any sequence of edits", () => {
    fc.assert(
      fc.property(
        fc.constantFrom(base, STUDIO),
        fc.array(edit, { minLength: 1, maxLength: 8 }),
        (start, edits) => {
          let text = start;
          let tree = readSource(text);
          for (const { at, take, put } of edits) {
            const from = at % (text.length + 1);
            text = text.slice(0, from) + put + text.slice(from + take);
            tree = readSource(text, tree);
            expect(tree).toEqual(readSource(text));
          }
        },
      ),
      { seed: 20260907, numRuns: 120 },
    );
  });
});
