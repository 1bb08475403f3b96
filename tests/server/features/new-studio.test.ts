import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { format } from "../../../grammar/format";
import { unrollTerm } from "../../../server/days/unroll";
import { newStudio, studioChoices } from "../../../server/features/new-studio";
import { totalsRows } from "../../../server/output/totals-rows";
import { playersOf } from "../../../server/plan/plan";
import type { NewStudioParams } from "../../../server/protocol/requests";
import { checkTexts } from "../check-texts";
import { FIXED } from "../music/fixed-seed";

const choices = studioChoices();

const usual: NewStudioParams = {
  level: "Seniors",
  stage: "senior",
  instrument: "trumpet in Bb",
  daysPerWeek: 5,
  minutes: 25,
  from: "2026-09-07",
  weeks: 13,
};

function filesOf(answers: NewStudioParams): ReadonlyMap<string, string> {
  const result = newStudio(answers);
  if ("trouble" in result) throw new Error(result.trouble);
  return new Map(result.files.map(({ path, text }) => [path, text]));
}

/** Any answers that a teacher may give. */
const anyAnswers: fc.Arbitrary<NewStudioParams> = fc.record({
  level: fc.oneof(
    fc.constantFrom("Seniors", "Beginners’ band", "Años 2–3", "# 1 term"),
    fc.string({ minLength: 1 }),
  ),
  stage: fc.constantFrom(...choices.stages.map((each) => each.stage)),
  instrument: fc.constantFrom(...choices.instruments),
  daysPerWeek: fc.integer({ min: 1, max: 6 }),
  minutes: fc.integer({ min: choices.minutes.least, max: choices.minutes.most }),
  from: fc
    .date({ min: new Date("1901-01-01"), max: new Date("2197-12-31"), noInvalidDate: true })
    .map((date) => date.toISOString().slice(0, 10)),
  weeks: fc.integer({ min: choices.weeks.least, max: choices.weeks.most }),
});

describe("a new studio", () => {
  test("checks without a finding and stands in the canonical layout, whatever is answered", () => {
    fc.assert(
      fc.property(anyAnswers, (answers) => {
        const result = newStudio(answers);
        if ("trouble" in result) {
          expect(result.trouble).toMatch(/^A level's name/);
          return;
        }
        const texts = new Map(result.files.map(({ path, text }) => [path, text]));
        const found = checkTexts(texts).files.flatMap((file) => file.findings.map((each) => each.message));
        expect(found).toEqual([]);
        for (const text of texts.values()) expect(format(text)).toBe(text);
      }),
      { ...FIXED, numRuns: 150 },
    );
  });

  test("plans as many weeks and days as were asked for, within the minutes", () => {
    fc.assert(
      fc.property(anyAnswers, (answers) => {
        const files = filesOf({ ...answers, level: "Anybody" });
        const { plan } = checkTexts(files).files.find((file) => file.path === "first-term.practice")!;
        const [term] = plan.own.terms;
        const [player] = playersOf(plan, term!);
        const days = unrollTerm(plan, term!, player!);
        expect(days.weeks).toBe(answers.weeks);
        const weeks = totalsRows(days, "week", undefined);
        expect(weeks.slice(1).every((week) => week.days === answers.daysPerWeek)).toBe(true);
        expect(weeks[0]!.days).toBeGreaterThan(0);
        for (const day of totalsRows(days, "day", undefined)) {
          expect(day.clock.value).toBeLessThanOrEqual(answers.minutes * 60);
          // A day that leaves most of its minutes empty would be no plan.
          expect(day.clock.value).toBeGreaterThan(answers.minutes * 60 * 0.5);
        }
      }),
      { ...FIXED, numRuns: 60 },
    );
  });

  test("reads like a plan that somebody wrote", () => {
    expect(filesOf(usual).get("first-term.practice")).toMatchInlineSnapshot(`
      "# The first term. What you know of it goes below its dates, for instance
      #   closed 2026-10-26 to 2026-10-31 "half-term"
      #   lesson every Tue
      #   booked every Thu "Wind band" { clock 40 min  playing half }

      use "book.practice"
      use "players.practice"

      term "First term" for "Seniors" {
        from      2026-09-07 to 2026-12-04
        practice  Mon to Fri
        every week {
          Mon to Fri "Daily" 25 min {
            "Quiet breaths"  once
            "Down the first steps"  once
            "One tone at a time"  for 6 min
            "Low bridge"  valves open  for 5 min
            "Up the hill and down"  tempo 100 to 104  for 5 min
            "Level road"  for 3 min
            "Small evening song"  for 5 min
          }
        }
      }
      "
    `);
  });

  test("says what is wrong with an answer", () => {
    const said = (wrong: Partial<NewStudioParams>): string => {
      const result = newStudio({ ...usual, ...wrong });
      return "trouble" in result ? result.trouble : "nothing";
    };
    expect(said({})).toBe("nothing");
    expect(said({ level: ' "' })).toMatch(/^A level's name is/);
    expect(said({ level: "  " })).toMatch(/^A level's name is/);
    expect(said({ stage: "constructor" })).toMatch(/^A stage is one of first year/);
    expect(said({ instrument: "kazoo" })).toMatch(/^The starter book is written for trumpet in Bb/);
    expect(said({ daysPerWeek: 7 })).toMatch(/a day off is when lips grow stronger/);
    expect(said({ minutes: 9 })).toMatch(/^Minutes a day are a whole number from 10 to 120/);
    expect(said({ weeks: 1.5 })).toMatch(/^Weeks are a whole number/);
    for (const from of ["2026-02-30", "next Monday", "2300-01-01"])
      expect(said({ from })).toMatch(/^The first day is a date/);
  });
});
