import { expect, test } from "vitest";
import { drawn, fixture, oneFile } from "../fixture";

test("marks are taken out and remembered", () => {
  expect(oneFile("a ⟦b⟧ c‸\n")).toEqual({
    path: "plan.practice",
    text: "a b c\n",
    cursor: 5,
    ranges: [{ start: 2, end: 3 }],
  });
});

test("ranges may stand inside one another", () => {
  expect(oneFile("⟦a⟦b⟧⟧").ranges).toEqual([
    { start: 0, end: 2 },
    { start: 1, end: 2 },
  ]);
});

test("several files stand in one string", () => {
  const files = fixture("\n--- a.practice\nx\n--- b/c.practice\n⟦y⟧\n");
  expect(files.map(({ path, text }) => [path, text])).toEqual([
    ["a.practice", "x"],
    ["b/c.practice", "y\n"],
  ]);
});

test("marks drawn wrongly are refused", () => {
  expect(() => fixture("⟦a")).toThrow();
  expect(() => fixture("a⟧")).toThrow();
  expect(() => fixture("‸a‸")).toThrow();
  expect(() => fixture("x\n--- a.practice\ny")).toThrow();
  expect(() => oneFile("--- a.practice\n--- b.practice\n")).toThrow();
});

test("drawing is the way back", () => {
  const { text, ranges } = oneFile("a ⟦b ⟦c⟧⟧ ⟦d⟧");
  expect(drawn(text, ranges)).toBe("a ⟦b ⟦c⟧⟧ ⟦d⟧");
});
