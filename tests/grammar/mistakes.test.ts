import { expect, test } from "vitest";
import { readSource } from "../../grammar/pieces";
import { drawn, oneFile } from "../fixture";
import { MISTAKES } from "./mistakes";
import { problemsOf } from "./read";

test("the corpus is large enough to mean something", () => {
  expect(MISTAKES.length).toBeGreaterThan(100);
  expect(new Set(MISTAKES.map(({ picture }) => picture)).size).toBe(MISTAKES.length);
});

test.each(MISTAKES.map((mistake) => [mistake.picture, mistake] as const))("%s", (picture, mistake) => {
  const { text, ranges } = oneFile(picture);
  const problems = problemsOf(readSource(text));
  expect(problems.map(({ message }) => message)).toEqual(mistake.says);
  const spans = problems.map(({ span }) => span);
  expect(drawn(text, spans)).toBe(drawn(text, ranges));
  expect(problems.flatMap(({ mend }) => mend ?? [])).toHaveLength(mistake.mended === undefined ? 0 : 1);
  for (const { mend, span } of problems) {
    if (mend === undefined) continue;
    const mended = text.slice(0, span.start) + mend.text + text.slice(span.end);
    expect(mended).toBe(mistake.mended);
    expect(problemsOf(readSource(mended))).toHaveLength(mistake.left ?? 0);
  }
});
