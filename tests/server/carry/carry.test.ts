import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { format } from "../../../grammar/format";
import { readSource } from "../../../grammar/pieces";
import { carriedFile, yearsLater } from "../../../server/carry/carried-file";
import type { CarryAsk } from "../../../server/carry/carried-term";
import { parseDate } from "../../../server/plan/date";
import { compared } from "../compare/sides";
import { FIXED } from "../music/fixed-seed";
import { randomPlan } from "../plan/random-plan";
import { fileOf } from "../plan-of";

/**
 * A term of three taught weeks (its second calendar week is closed), so that the taught weeks begin on 2026-09-07,
 * 2026-09-21 and 2026-09-28. The new term closes its third calendar week instead: its taught weeks begin on
 * 2027-09-06, 2027-09-13 and 2027-09-27.
 */
const OLD = `# Of last year.
use "book.practice"

# The autumn that rained.
term "Autumn 2026-27" for "Seniors" {
  from      2026-09-07 to 2026-10-03
  practice  Mon to Sat
  closed    2026-09-14 to 2026-09-19 "boat week"
  light     2026-09-21
  lesson every Tue { clock 30 min }
  booked every Thu from 2026-09-10 to 2026-09-24 "Band" { clock 40 min }
  booked    2026-09-23 "Rehearsal" { clock 1 h }
  concert   2026-10-02 "Concert" { clock 1 h }
  short     2026-09-22, 2026-09-08
  goal      "by heart" by 2026-09-30
  goal      "slowly" by week 2
  let day-upper stand on 2026-09-22 because "the lesson"
  weeks 1 to 3 {
    Mon to Fri "Morning" 10 min { # every morning
      "Fifths"  tempo 60 to 66  twice { goal "even" by 2026-09-24 }
    }
    on 2026-09-26 "Hall" { "Fifths" once }
    on 2026-09-16 "Boat" { "Fifths" once }
  }
  change "K. M." {
    replace "Fifths" with "Fourths" from 2026-09-21 to 2026-09-23
    ill 2026-09-09 to 2026-09-10
  }
  change "J. T." { back at half 2026-09-08 }
}
`;

function day(text: string): number {
  const found = parseDate(text);
  if (found === undefined) throw new Error(`no such day: ${text}`);
  return found;
}

const ASK: CarryAsk = {
  name: "Autumn 2027-28",
  dates: { from: day("2027-09-06"), to: day("2027-10-02") },
  closures: [
    { how: "closed", from: day("2027-09-20"), to: day("2027-09-25"), reason: "boat week" },
    { how: "no lesson", from: day("2027-09-28"), to: day("2027-09-28"), reason: undefined },
  ],
  bookings: true,
};

function carried(text: string, ask: CarryAsk) {
  const { plan } = fileOf(text);
  const paths = { used: (written: string) => `../old/${written}`, old: "../old/plan.practice" };
  return carriedFile(
    readSource(text),
    plan.own.terms.map((term) => ({ term, ask })),
    paths,
  );
}

describe("a term over a new calendar", () => {
  test("has every day on the same weekday of the same taught week", () => {
    const { text, terms } = carried(OLD, ASK);
    expect(text).toBe(`use "../old/book.practice"

term "Autumn 2027-28" for "Seniors" {
  from      2027-09-06 to 2027-10-02
  practice  Mon to Sat
  closed    2027-09-20 to 2027-09-25 "boat week"
  no lesson 2027-09-28
  lesson every Tue { clock 30 min }
  booked every Thu from 2027-09-09 to 2027-09-16 "Band" { clock 40 min }
  booked    2027-09-15 "Rehearsal" { clock 1 h }
  concert   2027-10-01 "Concert" { clock 1 h }
  short     2027-09-14, 2027-09-07
  goal      "by heart" by 2027-09-29
  goal      "slowly" by week 2
  let day-upper stand on 2027-09-14 because "the lesson"
  weeks 1 to 3 {
    Mon to Fri "Morning" 10 min {  # every morning
      "Fifths"  tempo 60 to 66  twice { goal "even" by 2027-09-16 }
    }
    on 2027-09-18 "Hall" { "Fifths"  once }
  }
  change "K. M." {
    replace "Fifths" with "Fourths" from 2027-09-13 to 2027-09-15
  }
}
`);
    expect(terms[0]?.leftOut).toEqual([
      { line: 'closed 2026-09-14 to 2026-09-19 "boat week"', why: "closure" },
      { line: "light 2026-09-21", why: "closure" },
      { line: 'on 2026-09-16 "Boat"', why: "no such day" },
      { line: "ill 2026-09-09 to 2026-09-10", why: "illness" },
      { line: "back at half 2026-09-08", why: "illness" },
    ]);
  });

  test("leaves single days of bookings out unless they are asked for", () => {
    const { text, terms } = carried(OLD, { ...ASK, bookings: false });
    expect(text).toContain("booked every Thu");
    expect(text).not.toMatch(/concert|Rehearsal|short/);
    expect(terms[0]?.leftOut.filter((each) => each.why === "booking").map((each) => each.line)).toEqual([
      'booked 2026-09-23 "Rehearsal" { clock 1 h }',
      'concert 2026-10-02 "Concert" { clock 1 h }',
      "short 2026-09-22, 2026-09-08",
    ]);
  });

  test("says which days a shorter term does not have", () => {
    const dates = { from: ASK.dates.from, to: day("2027-09-18") };
    const { text, terms } = carried(OLD, { ...ASK, dates, closures: [] });
    // Two taught weeks are left: what lay in the third has no day.
    expect(terms[0]?.leftOut.filter((each) => each.why === "no such day").map((each) => each.line)).toEqual([
      'concert 2026-10-02 "Concert" { clock 1 h }',
      'goal "by heart" by 2026-09-30',
      'on 2026-09-16 "Boat"',
    ]);
    expect(text).toContain("weeks 1 to 3 {");
  });

  test("uses the old file where that declares more than terms", () => {
    const { text } = carried(`${OLD}\narea "Tones"\n`, ASK);
    expect(text.startsWith('use "../old/plan.practice"\n\nterm')).toBe(true);
  });

  test("of a plan made at random, a year of 52 weeks later, differs in nothing but dates and what was left out", () => {
    let whole = 0;
    fc.assert(
      fc.property(randomPlan, (text) => {
        const { plan } = fileOf(text);
        const [term] = plan.own.terms;
        if (term === undefined) return;
        const later = (date: number): number => date + 364;
        const { dates, closures } = term;
        const ask: CarryAsk = {
          name: term.name,
          dates: { from: later(dates.from), to: later(dates.to) },
          closures: closures.map(({ how, from, to, reason }) => ({
            how,
            from: later(from),
            to: later(to),
            reason,
          })),
          bookings: true,
        };
        const file = carried(text, ask);
        expect(format(file.text)).toBe(file.text);
        const lost = file.terms[0]?.leftOut ?? [];
        // Concerts outside the taught weeks go, and easing with them; illness goes.
        if (lost.some((each) => each.why !== "closure")) return;
        whole++;
        const before = text.slice(0, text.indexOf("term "));
        const { terms } = compared(text, `${before}${file.text.slice(file.text.indexOf("term "))}`);
        expect(terms.changed.map(({ dates: moved, ...rest }) => [moved?.after, rest])).toEqual([
          [
            ask.dates,
            {
              term: { before: term.name, after: term.name },
              taughtWeeks: undefined,
              goals: { added: [], dropped: [] },
              newPlayers: [],
              formerPlayers: [],
              practice: [],
            },
          ],
        ]);
      }),
      { ...FIXED, numRuns: 60 },
    );
    expect(whole).toBeGreaterThan(10);
  });
});

describe("years in a name", () => {
  test.each([
    ["Autumn 2026", 1, "Autumn 2027"],
    ["Autumn 2026-27, seniors", 1, "Autumn 2027-28, seniors"],
    ["1999/2000", 2, "2001/2002"],
    ["1998-99", 1, "1999-00"],
    ["Grade 5", 1, "Grade 5"],
  ])("“%s”, %i later, is “%s”", (name, years, later) => {
    expect(yearsLater(name, years)).toBe(later);
  });
});
