import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { RULES } from "../../../server/rules/all";
import { catalogue, infoOf } from "../../../server/rules/catalogue";
import { fileOf, findingsOf } from "../plan-of";

const REFERENCE = readFileSync(new URL("../../../grammar/REFERENCE.md", import.meta.url), "utf8");
const TROUBLE = readFileSync(new URL("../../../server/plan/trouble.ts", import.meta.url), "utf8");

describe("the catalogue", () => {
  it("has every code once, spelled in small letters with hyphens", () => {
    const codes = catalogue.map((info) => info.code);
    expect(new Set(codes).size).toBe(codes.length);
    for (const code of codes) expect(code).toMatch(/^[a-z]+(-[a-z]+)*$/);
  });

  it.each(catalogue.map((info) => [info.code, info] as const))(
    "%s has a title, a reason and a mend in words",
    (code, info) => {
      expect(infoOf(code)).toBe(info);
      expect(info.title).toMatch(/^[a-z`].*[^.]$/s);
      expect(info.reason).toMatch(/^[A-Z].*\.$/s);
      expect(info.reason.split(" ").length).toBeGreaterThan(2);
      expect(info.mend).toMatch(/^[A-Z`].+/s);
      expect(info.mend.length).toBeGreaterThan(8);
      expect(["error", "warning", "note"]).toContain(info.severity);
    },
  );

  it("has a rule for every kind of trouble that reading can note", () => {
    const kinds = [
      ...TROUBLE.slice(0, TROUBLE.indexOf("export type NamedThing")).matchAll(/kind: "([a-z-]+)"/g),
    ].map((match) => match[1] ?? "");
    expect(kinds.length).toBeGreaterThan(20);
    const ruled = RULES.filter((rule) => rule.kind === "trouble").map((rule) => rule.code as string);
    expect([...ruled].sort()).toEqual([...kinds].sort());
  });
});

describe("the examples of the reference, read as one studio", () => {
  const text = [...REFERENCE.matchAll(/^```practice\n([\s\S]*?)^```/gm)]
    .map((match) => match[1] ?? "")
    .join("\n");
  const file = fileOf(text);
  const findings = findingsOf(file.plan);

  it("are read without a slip and hold every kind of declaration", () => {
    expect(file.unread).toEqual([]);
    const kinds = new Set([...text.matchAll(/^([a-z]+) /gm)].map((match) => match[1]));
    for (const kind of ["area", "exercise", "level", "student", "studio", "routine", "term", "record"]) {
      expect(kinds, kind).toContain(kind);
    }
  });

  it("check without an error", () => {
    expect(findings.filter((each) => each.severity === "error").map((each) => each.message)).toEqual([]);
  });

  it("give these warnings and notes, and no others", () => {
    const said = findings.map(
      (each) => `${each.severity} ${each.code}${each.standing === undefined ? "" : " (standing)"}`,
    );
    expect([...new Set(said)].sort()).toMatchInlineSnapshot(`
      [
        "note highest-last",
        "note unused-exercise",
        "note unused-exercise (standing)",
        "note walk-restarts",
        "note walk-unfinished",
        "warning area-untouched",
        "warning day-playing",
        "warning day-stretch",
        "warning no-concert-easing",
        "warning no-easing-in",
      ]
    `);
  });
});
