import { describe, expect, test } from "vitest";
import { readSource } from "../../../grammar/pieces";
import { unrollTerm } from "../../../server/days/unroll";
import { buildPlan } from "../../../server/plan/plan";
import { coverageOf } from "../../../server/totals/coverage";

/** Two weeks worked out by hand: a walk C, D♭, D on Mon, Tue, Wed of each, and a low exercise on Wednesdays. */
const TEXT = `area "Flow"
area "Long tones"

exercise "Turn" {
  in        "Flow"
  key       C major
  meter     4/4
  tempo     1/4 = 60
  music     { 1/2 B4 C5 | }
}

exercise "Deep" {
  in        "Long tones"
  key       C major
  meter     4/4
  tempo     1/4 = 60
  music     { 1/1 B3 | }
}

level "L"

term "T" for "L" {
  from      2027-02-01 to 2027-02-14
  practice  Mon to Wed
  weeks 1 to 2 {
    Mon to Wed "A" {
      "Turn"  keys C up by half step to D  twice
    }
    Wed "B" {
      "Deep"  3 times
    }
  }
}
`;

const { pieces } = readSource(TEXT);
const plan = buildPlan(pieces, []);
const term = unrollTerm(plan, plan.terms.get("T")!, plan.players.get("L")!);
const coverage = coverageOf(term);

describe("what a term touches, against figures worked out by hand", () => {
  test("every key gets the times through asked for on its days", () => {
    expect([...coverage.keys.get("Turn")!]).toEqual([
      ["C major", 4],
      ["D♭ major", 4],
      ["D major", 4],
    ]);
    expect([...coverage.keys.get("Deep")!]).toEqual([["C major", 6]]);
  });

  test("areas are touched on their days", () => {
    expect(coverage.areas.get("Flow")!.size).toBe(6);
    expect(coverage.areas.get("Long tones")!.size).toBe(2);
  });

  test("registers part at C4 and C5", () => {
    // In C each time through has 2 s of B4 and 2 s of C5; in D♭ and D all 4 s lie at C5 or above.
    // A week: C twice = 4 s middle + 4 s high; D♭ and D twice each = 16 s high; Deep 3 times 4 s = 12 s low.
    expect(coverage.registers).toEqual([
      { week: 1, low: 12, middle: 4, high: 20 },
      { week: 2, low: 12, middle: 4, high: 20 },
    ]);
  });

  test("the sums equal the days' assignments", () => {
    const times = term.days
      .flatMap((day) => day.sessions.flatMap((session) => session.items))
      .reduce((sum, item) => sum + item.passes.reduce((all, pass) => all + pass.times, 0), 0);
    const covered = [...coverage.keys.values()]
      .flatMap((keys) => [...keys.values()])
      .reduce((sum, n) => sum + n, 0);
    expect(covered).toBe(times);
    const playing = term.days.reduce((sum, day) => sum + day.totals.playing, 0);
    expect(coverage.registers.reduce((sum, week) => sum + week.low + week.middle + week.high, 0)).toBeCloseTo(
      playing,
      9,
    );
  });
});
