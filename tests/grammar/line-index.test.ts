import fc from "fast-check";
import { expect, test } from "vitest";
import { LineIndex } from "../../grammar/line-index";
import { readSource } from "../../grammar/pieces";

test("lines end with \\n, \\r\\n or a lone \\r", () => {
  const index = new LineIndex("ab\ncd\r\nef\rgh");
  expect(index.lineCount).toBe(4);
  expect([0, 2, 3, 5, 7, 10].map((offset) => index.position(offset))).toEqual([
    { line: 0, column: 0 },
    { line: 0, column: 2 },
    { line: 1, column: 0 },
    { line: 1, column: 2 },
    { line: 2, column: 0 },
    { line: 3, column: 0 },
  ]);
  expect([0, 1, 2, 3].map((line) => index.lineText(line))).toEqual(["ab", "cd", "ef", "gh"]);
});

test("columns count UTF-16 code units", () => {
  expect(new LineIndex("🎺x").position(2)).toEqual({ line: 0, column: 2 });
});

test("what lies outside is moved to the nearest end", () => {
  const index = new LineIndex("ab\r\ncd");
  expect(index.offset({ line: 0, column: 99 })).toBe(2);
  expect(index.offset({ line: 9, column: 0 })).toBe(6);
  expect(index.offset({ line: -1, column: 5 })).toBe(0);
  expect(index.position(99)).toEqual({ line: 1, column: 2 });
  expect(index.position(-5)).toEqual({ line: 0, column: 0 });
});

test("there and back is the same, but inside of a line end", () => {
  const letters = fc.array(fc.constantFrom("a", "é", "🎺", "\n", "\r\n", "\r"), { maxLength: 30 });
  fc.assert(
    fc.property(letters, (parts) => {
      const text = parts.join("");
      const index = new LineIndex(text);
      for (let offset = 0; offset <= text.length; offset++) {
        if (text[offset] === "\n" && text[offset - 1] === "\r") continue;
        expect(index.offset(index.position(offset))).toBe(offset);
      }
    }),
    { seed: 20260907 },
  );
});

test("with the tree at hand the lines are the same", () => {
  const scrap = fc.constantFrom('area "A"', "\n", "\r\n", "\r", "# c", "{", "}", "🎺", 'exercise "B" {');
  fc.assert(
    fc.property(fc.array(scrap, { maxLength: 40 }), (scraps) => {
      const text = scraps.join("");
      const [plain, quick] = [new LineIndex(text), new LineIndex(text, readSource(text))];
      expect(quick.lineCount).toBe(plain.lineCount);
      for (let at = 0; at <= text.length; at++) expect(quick.position(at)).toEqual(plain.position(at));
      for (let line = -1; line <= plain.lineCount; line++) {
        for (const column of [0, 3, 99]) {
          expect(quick.offset({ line, column })).toBe(plain.offset({ line, column }));
        }
      }
    }),
    { seed: 20260907, numRuns: 500 },
  );
});
