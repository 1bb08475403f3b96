import { describe, expect, it } from "vitest";
import { catalogue } from "../../../server/rules/catalogue";
import { fileOf, findingsOf } from "../plan-of";
import { MISTAKES } from "./mistakes";

/** Codes that need a file system, or text that does not parse: met in the tests of the workspace and grammar. */
const ELSEWHERE = [
  "file-empty",
  "file-not-text",
  "file-too-large",
  "file-unreadable",
  "odd-letter",
  "too-deep",
  "unreadable",
  "use-case",
  "use-circle",
  "use-missing",
  "use-twice",
];

describe("mistakes", () => {
  it.each(MISTAKES.map((each) => [each.name, each] as const))("%s", (_, mistake) => {
    const start = mistake.text.indexOf("«");
    const end = mistake.text.indexOf("»") - 1;
    expect(start).toBeGreaterThanOrEqual(0);
    const file = fileOf(mistake.text.replace(/[«»]/g, ""));
    expect(file.unread).toEqual([]);
    // What is left over in so small a book is not the matter.
    const findings = findingsOf(file.plan).filter(
      (each) => each.code === mistake.code || each.code !== "unused-exercise",
    );
    const [finding, ...more] = findings.filter((each) => each.code === mistake.code);
    expect(more).toEqual([]);
    expect(finding?.message).toBe(mistake.message);
    const at = file.at(finding!.place);
    expect(at, `it marks ‹${file.text.slice(at.start, at.end)}›`).toEqual({ start, end });
    const others = new Set(findings.filter((each) => each !== finding).map((each) => each.code));
    expect([...others].sort()).toEqual(mistake.also ?? []);
    expect(finding?.mend?.text).toBe(mistake.mend);
    if (mistake.mend === undefined) return;
    const mended = fileOf(file.text.slice(0, start) + mistake.mend + file.text.slice(end));
    expect(mended.unread).toEqual([]);
    expect(findingsOf(mended.plan).map((each) => each.code)).not.toContain(mistake.code);
  });

  it("are at least sixty, and cover every finding that one file can give", () => {
    expect(MISTAKES.length).toBeGreaterThanOrEqual(60);
    const met = new Set(MISTAKES.map((each) => each.code));
    const missing = catalogue.map((info) => info.code).filter((code) => !met.has(code));
    expect(missing).toEqual(ELSEWHERE);
  });

  it("are told in a musician's words", () => {
    for (const { name, message } of MISTAKES) {
      expect(message, name).not.toMatch(/undefined|null|NaN|Infinity|\[object|\bspan\b|\btoken\b|\bparse/i);
      expect(message, name).not.toMatch(/\ba [aeio]\w|\b1 (?:more )?(?:day|week|point)s\b|\s\s| \./);
      expect(message.length, name).toBeLessThan(330);
    }
  });
});
