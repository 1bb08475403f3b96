import { describe, expect, test } from "vitest";
import { isWithin, sourceSetOf } from "../../../server/workspace/source-set-of";
import { UseGraph } from "../../../server/workspace/uses";

describe("files at hand, of another revision", () => {
  const study = "old/Études.practice".normalize("NFD");

  test("whose accents are two signs are found as they are written", () => {
    const texts = new Map([
      ["term.practice", 'use "old/Études.practice"\n'],
      [study, 'area "A"\n'],
    ]);
    const set = sourceSetOf(texts, new Map(), (path) => path === "term.practice");
    expect([...set.sources.keys()]).toEqual(["term.practice", study]);
    const graph = new UseGraph(set);
    expect(graph.usedBy("term.practice")).toEqual([study]);
    expect(graph.findings("term.practice")).toEqual([]);
  });

  test("lie in a folder however its name is written", () => {
    expect(isWithin("old/Études.practice", study)).toBe(true);
    expect(isWithin("Ältere".normalize("NFD"), "Ältere/book.practice")).toBe(true);
    expect(isWithin("Ält", "Ältere/book.practice")).toBe(false);
  });
});
