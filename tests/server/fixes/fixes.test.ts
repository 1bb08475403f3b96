import { describe, expect, test } from "vitest";
import type { Piece } from "../../../grammar/piece";
import { readSource } from "../../../grammar/pieces";
import { fixesFor } from "../../../server/fixes/fixes-for";
import { improves } from "../../../server/fixes/measure";
import { buildPlan } from "../../../server/plan/plan";
import { checkPlan } from "../../../server/rules/check";
import type { Finding } from "../../../server/rules/finding";

const around = { mentioned: new Set<string>(), hasTerm: false };

function checked(text: string): {
  pieces: readonly Piece[];
  starts: readonly number[];
  findings: readonly Finding[];
} {
  const { pieces, starts } = readSource(text);
  return { pieces, starts, findings: checkPlan(buildPlan(pieces, []), around) };
}

/** A studio with two players who share one term, and a week to be overloaded. */
function studio(assignments: string, change = ""): string {
  return `area "Long tones"
area "Flow"

exercise "High bells" {
  in        "Long tones"
  key       C major
  meter     4/4
  tempo     1/4 = 60
  music     { 1/2 G5 A5 | 1/1 G5 ' | }
  rest      equal
}

exercise "Low road" {
  in        "Flow"
  key       C major
  meter     4/4
  tempo     1/4 = 60
  music     { 1/4 C4 D4 E4 D4 | 1/1 C4 ' | }
}

exercise "Hail" {
  in        "Flow"
  key       C major
  meter     4/4
  tempo     1/4 = 100
  music     { 1/16 G4 G4 G4 G4 G4 G4 G4 G4 1/2 G4 ' | }
}

exercise "Long road" {
  in        "Flow"
  key       C major
  meter     4/4
  tempo     1/4 = 60
  music     { 1/2 C4 D4 | E4 F4 | 1/1 G4 ' | }
}

level "Seniors" {
  stage     senior
}

student "R. A." like "Seniors" {
  limit     F#3 to Bb5
}

term "Autumn" for "Seniors" {
  from      2026-09-07 to 2026-09-26
  weeks 1 to 3 {
    Mon to Fri "Morning" 40 min {
      "Low road"  twice
      ${assignments}
      "Low road"  once
    }
  }${change}
}
`;
}

/** Applies a fix as an editor would: the text at its place is replaced, nothing else. */
function applied(
  text: string,
  pieces: readonly Piece[],
  starts: readonly number[],
  fix: { place: Finding["place"]; text: string },
): string {
  const start = starts[pieces.indexOf(fix.place.piece)]!;
  return text.slice(0, start + fix.place.span.start) + fix.text + text.slice(start + fix.place.span.end);
}

const overloaded: readonly (readonly [code: string, assignments: string])[] = [
  ["day-upper", '"High bells"  in C  50 times'],
  ["day-upper", '"High bells"  for 20 min'],
  ["day-playing", '"Low road"  all keys C, D, E  90 times'],
  ["session-minutes", '"Low road"  for 40 min'],
  ["day-stretch", '"Low road"  in D  40 times'],
  ["outside-limit", '"High bells"  in F  once'],
  ["outside-limit", '"High bells"  keys C up by half step to G  once'],
  ["outside-limit", '"High bells"  keys C, D, F  once'],
  ["outside-instrument", '"High bells"  keys C up by whole step to Bb  once'],
  ["phrase-breath", '"Long road"  once'],
  ["tongue-speed", '"Hail"  tempo 120  once'],
  ["no-easing-in", '"Low road"  once'],
];

describe("every offered fix takes its finding away and brings none, measured again on the fixed text", () => {
  test.each(overloaded)("%s: %s", (code, assignments) => {
    const text =
      code === "no-easing-in"
        ? studio(assignments).replace('"Low road"  twice', '"High bells"  in C  once')
        : studio(assignments);
    const { pieces, starts, findings } = checked(text);
    const finding = findings.find((each) => each.code === code);
    expect(finding, findings.map((each) => `${each.code}: ${each.message}`).join("\n")).toBeDefined();
    const plan = buildPlan(pieces, []);
    const ground = { own: pieces, used: [], records: [], around };
    const fixes = fixesFor(finding!, plan, ground, findings);
    expect(fixes.length, finding!.message).toBeGreaterThan(0);
    for (const fix of fixes) {
      const fixed = checked(applied(text, pieces, starts, fix));
      const fresh = fixed.pieces.flatMap((piece) => piece.problems);
      expect(fresh).toEqual([]);
      const before = new Set(findings.map((each) => `${each.code} ${each.players.join()}`));
      // Within the limit and yet outside the comfortable range is allowed: that is how a range grows.
      const after = fixed.findings
        .filter((each) => each.code !== "outside-range")
        .map((each) => `${each.code} ${each.players.join()}`);
      expect(after.filter((each) => !before.has(each))).toEqual([]);
      expect(fixed.findings.filter((each) => each.code === code).length, fix.title).toBeLessThan(
        findings.filter((each) => each.code === code).length,
      );
    }
  });
});

describe("what is shared is measured for all who share it", () => {
  test("a fix that helps the level but still hurts the student is not offered", () => {
    // B♭5 is the student's limit, C6 the level's: in D (B5) only the student is out of reach.
    const { pieces, findings } = checked(studio('"High bells"  in D  once'));
    const finding = findings.find((each) => each.code === "outside-limit")!;
    expect(finding.players).toEqual(["R. A."]);
    const fixes = fixesFor(
      finding,
      buildPlan(pieces, []),
      { own: pieces, used: [], records: [], around },
      findings,
    );
    expect(fixes.map((fix) => fix.text)).toEqual(['"High bells"  in Db  once']);
  });

  test("a finding that only moved to another line is not called gone", () => {
    const { findings } = checked(studio('"High bells"  in C  50 times'));
    const finding = findings.find((each) => each.code === "day-upper")!;
    const moved = { ...finding, place: { ...finding.place, span: { start: 0, end: 1 } } };
    expect(improves(findings, [moved], finding)).toBe(false);
    expect(improves(findings, [finding], finding)).toBe(false);
    expect(improves(findings, [], finding)).toBe(true);
  });

  test("a finding that stands has no fix to offer", () => {
    const text = studio('"High bells"  in C  50 times { let day-upper stand because "she asked" }');
    const { pieces, findings } = checked(text);
    const finding = findings.find((each) => each.code === "day-upper")!;
    expect(finding.standing).toBe("she asked");
    expect(
      fixesFor(finding, buildPlan(pieces, []), { own: pieces, used: [], records: [], around }, findings),
    ).toEqual([]);
  });
});
