import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { cellsThatFit, easedTimes, grown, timesThatFit } from "../../../server/days/amount";
import type { PlayerTerm } from "../../../server/days/day";
import { keySign } from "../key-sign";
import { FIXED } from "../music/fixed-seed";
import { dayOf, itemsOf, planOf, termOf } from "../plan-of";

const BOOK = `
area "Tone"
exercise "A" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/1 C4 | } }
exercise "B" { in "Tone"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/1 E4 | }  rest equal }
exercise "Cell" {
  in "Tone"  key C major  meter 4/4  tempo 1/4 = 60
  music { 1/1 G4 | }  series 7 cells down by half step  rest 8 s
}
exercise "Endless" {
  in "Tone"  key C major  meter 4/4  tempo 1/4 = 60
  music { 1/1 G4 | }  series down by half step  rest 8 s
}
exercise "Quiet" { in "Tone"  activity breathing  spares lips  lasts 2 min }
level "L" { stage college }
student "K" like "L" { }
`;

function term(lines: string, player = "L", dates = "2026-09-07 to 2026-10-02"): PlayerTerm {
  return termOf(
    planOf(`${BOOK}\nterm "T" for "L" {\n from ${dates}\n practice Mon to Fri\n${lines}\n}`),
    player,
  );
}

function timesOn(days: PlayerTerm, date: string): number {
  return itemsOf(dayOf(days, date)).reduce(
    (sum, item) => sum + item.passes.reduce((more, pass) => more + pass.times, 0),
    0,
  );
}

describe("growth", () => {
  it("in whole numbers and even steps from the first week to the last", () => {
    const growth = { way: "growth", from: 60, to: 72 } as const;
    expect([0, 1, 2, 3].map((week) => grown(growth, week, 4))).toEqual([60, 64, 68, 72]);
    expect([0, 1, 2].map((week) => grown({ way: "growth", from: 50, to: 55 }, week, 3))).toEqual([
      50, 53, 55,
    ]);
    expect(grown(growth, 0, 1)).toBe(60);
    expect(grown({ way: "choice", from: 50, to: 58 }, 3, 4)).toBe(50);
  });

  it("never leaves its two ends, and never turns back", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 10, max: 400 }),
        fc.integer({ min: 10, max: 400 }),
        fc.integer({ min: 2, max: 20 }),
        (from, to, weeks) => {
          const values = Array.from({ length: weeks }, (_, i) =>
            grown({ way: "growth", from, to }, i, weeks),
          );
          expect(values[0]).toBe(from);
          expect(values.at(-1)).toBe(to);
          for (let i = 1; i < weeks; i++) {
            const step = values[i]! - values[i - 1]!;
            expect(Number.isInteger(step)).toBe(true);
            expect(step === 0 || Math.sign(step) === Math.sign(to - from)).toBe(true);
            // Even steps: no two differ by more than rounding.
            expect(Math.abs(step - (to - from) / (weeks - 1))).toBeLessThanOrEqual(1);
          }
        },
      ),
      FIXED,
    );
  });

  it("counts the taught weeks of its block", () => {
    const days = term(
      'weeks 1, 3 to 4 { every day "S" { "A" tempo 60 to 64 } }',
      "L",
      "2026-09-07 to 2026-10-02",
    );
    expect(
      ["2026-09-07", "2026-09-21", "2026-09-28"].map((date) => itemsOf(dayOf(days, date))[0]?.bpm),
    ).toEqual([60, 62, 64]);
    expect(dayOf(days, "2026-09-14").sessions).toEqual([]);
  });

  it("a choice counts minutes at the slower and the tongue at the faster", () => {
    const [item] = itemsOf(
      dayOf(term('every week { every day "S" { "A" tempo between 60 and 120 } }'), "2026-09-07"),
    );
    expect([item?.bpm, item?.fastest, item?.playing]).toEqual([60, 120, 4]);
  });

  it("a tempo in another note value", () => {
    // 1/8 = 120 is 1/4 = 60: a whole note lasts 4 s.
    const [item] = itemsOf(dayOf(term('every week { every day "S" { "A" tempo 1/8 = 120 } }'), "2026-09-07"));
    expect(item?.playing).toBe(4);
  });
});

describe("what fits the minutes", () => {
  it("whole times through with their rests, never less than one", () => {
    expect(timesThatFit(60, 4, 2)).toBe(10);
    expect(timesThatFit(59.9, 4, 2)).toBe(9);
    expect(timesThatFit(1, 4, 2)).toBe(1);
    expect(timesThatFit(60, 0, 0)).toBe(1);
  });

  it("whole cells of a series, where the last rest need not fit", () => {
    expect(cellsThatFit(28, 4, 8)).toBe(3);
    expect(cellsThatFit(27.9, 4, 8)).toBe(2);
    expect(cellsThatFit(1, 4, 8)).toBe(1);
  });

  it("is the most that fits", () => {
    const seconds = fc.double({ min: 0.5, max: 3600, noNaN: true });
    fc.assert(
      fc.property(seconds, seconds, fc.double({ min: 0, max: 120, noNaN: true }), (room, play, rest) => {
        const times = timesThatFit(room, play, rest);
        if (times > 1) expect(times * (play + rest)).toBeLessThanOrEqual(room + 1e-5);
        expect((times + 1) * (play + rest)).toBeGreaterThan(room - 1e-5);
        const cells = cellsThatFit(room, play, rest);
        if (cells > 1) expect(cells * (play + rest) - rest).toBeLessThanOrEqual(room + 1e-5);
        expect((cells + 1) * (play + rest) - rest).toBeGreaterThan(room - 1e-5);
      }),
      FIXED,
    );
  });

  it("a series is cut to the whole cells that fit and never goes past its last", () => {
    const cells = (minutes: string, name = "Cell"): string =>
      itemsOf(dayOf(term(`every week { every day "S" { "${name}" ${minutes} } }`), "2026-09-07"))
        .map(keySign)
        .join();
    // Each cell 4 s and 8 s of rest: 0.5 min = 30 s hold 12 + 12 + 4 = 28 s, so three.
    expect(cells("for 0.5 min")).toBe("C, B, B♭");
    expect(cells("for 10 min")).toBe("C, B, B♭, A, A♭, G, F♯");
    expect(cells("")).toBe("C, B, B♭, A, A♭, G, F♯");
    expect(cells("for 2 min", "Endless").split(", ")).toHaveLength(10);
    expect(term('every week { every day "S" { "Endless" once } }').troubles.map((each) => each.kind)).toEqual(
      ["series-endless"],
    );
  });

  it("the rest after the last time through counts for nobody", () => {
    const day = dayOf(term('every week { every day "S" { "B" 3 times } }'), "2026-09-07");
    // Three times 4 s of playing with 4 s of rest between.
    expect([day.totals.playing, day.totals.clock]).toEqual([12, 20]);
  });

  it("work that spares the lips is rest, and takes time", () => {
    const day = dayOf(term('every week { every day "S" { "Quiet"  "A" } }'), "2026-09-07");
    expect([day.totals.playing, day.totals.clock]).toEqual([4, 124]);
  });
});

describe("easier days", () => {
  it("whole times, rounded down, never less than one", () => {
    expect([4, 3, 1].map((times) => easedTimes(times, 0.5))).toEqual([2, 1, 1]);
    expect(easedTimes(10, 0.7)).toBe(7);
    expect(easedTimes(3, 1)).toBe(3);
  });

  it("light is the short version, or half where there is none", () => {
    const light = "light 2026-09-08";
    expect(timesOn(term(`${light}\nevery week { every day "S" { "A" 4 times } }`), "2026-09-08")).toBe(2);
    expect(
      timesOn(
        term(`${light}\nevery week { every day "S" { "A" 4 times short { "A" 3 times } } }`),
        "2026-09-08",
      ),
    ).toBe(3);
    expect(timesOn(term(`${light}\nevery week { every day "S" { "A" 4 times } }`), "2026-09-07")).toBe(4);
  });

  it("short days play the short version, and what has none plays all", () => {
    const short = "short every Tue";
    expect(
      timesOn(
        term(`${short}\nevery week { every day "S" { "A" 4 times short { "A" once } } }`),
        "2026-09-08",
      ),
    ).toBe(1);
    expect(timesOn(term(`${short}\nevery week { every day "S" { "A" 4 times } }`), "2026-09-08")).toBe(4);
  });

  it("the days before a concert are eased, the concert itself is not", () => {
    const days = term(
      'concert 2026-09-17 "C"\nease 2 days before concerts to half\nevery week { every day "S" { "A" 5 times } }',
    );
    expect(["14", "15", "16", "17", "18"].map((day) => timesOn(days, `2026-09-${day}`))).toEqual([
      5, 2, 2, 5, 5,
    ]);
    const minutes = term(
      'concert 2026-09-17 "C"\nease 2 days before concerts to 50 %\nevery week { every day "S" { "A" for 1 min } }',
    );
    expect(["14", "16"].map((day) => timesOn(minutes, `2026-09-${day}`))).toEqual([10, 5]);
  });

  it("ill is no practice, back at half is half of every amount, both for that student alone", () => {
    const lines =
      'every week { every day "S" { "A" 5 times } }\nchange "K" { ill 2026-09-08\n back at half 2026-09-09 to 2026-09-10 }';
    const student = term(lines, "K");
    expect(dayOf(student, "2026-09-08").state).toBe("ill");
    expect(["07", "08", "09", "10", "11"].map((day) => timesOn(student, `2026-09-${day}`))).toEqual([
      5, 0, 2, 2, 5,
    ]);
    expect(["08", "09"].map((day) => timesOn(term(lines), `2026-09-${day}`))).toEqual([5, 5]);
  });

  it("half of an eased day is a quarter", () => {
    const lines =
      'concert 2026-09-17 "C"\nease 2 days before concerts to half\nevery week { every day "S" { "A" 8 times } }\nchange "K" { back at half 2026-09-16 }';
    expect(timesOn(term(lines, "K"), "2026-09-16")).toBe(2);
  });

  it("replaces and leaves out for the term, for weeks, for dates", () => {
    const names = (change: string, date: string): string =>
      itemsOf(dayOf(term(`every week { every day "S" { "A"  "B" } }\nchange "K" { ${change} }`, "K"), date))
        .map((item) => item.exercise.name)
        .join();
    expect(names('replace "A" with "Quiet"', "2026-09-07")).toBe("Quiet,B");
    expect(names('replace "A" with "Quiet" weeks 2 to 3', "2026-09-07")).toBe("A,B");
    expect(names('replace "A" with "Quiet" weeks 2 to 3', "2026-09-14")).toBe("Quiet,B");
    expect(names('leave out "B"', "2026-09-07")).toBe("A");
    expect(names('leave out "B" from 2026-09-08 to 2026-09-09', "2026-09-09")).toBe("A");
    expect(names('leave out "B" from 2026-09-08 to 2026-09-09', "2026-09-10")).toBe("A,B");
  });
});

describe("weeks", () => {
  it("a wholly closed week has no number, a part week has one", () => {
    const days = term(
      'closed 2026-09-14 to 2026-09-18\nclosed 2026-09-21 to 2026-09-22\nevery week { every day "S" { "A" } }',
    );
    expect(days.weeks).toBe(3);
    expect(
      ["09-07", "09-14", "09-21", "09-23", "09-28"].map((day) => dayOf(days, `2026-${day}`).week),
    ).toEqual([1, undefined, 2, 2, 3]);
    expect(dayOf(days, "2026-09-21").sessions).toEqual([]);
    expect(dayOf(days, "2026-09-23").sessions).toHaveLength(1);
  });

  it("a term that begins in the middle of a week begins with a part week", () => {
    const days = term('every week { every day "S" { "A" } }', "L", "2026-09-10 to 2026-09-18");
    expect(days.weeks).toBe(2);
    expect(dayOf(days, "2026-09-11").week).toBe(1);
    expect(dayOf(days, "2026-09-14").week).toBe(2);
  });

  it("a weekend that is all there is of a week leaves it without a number", () => {
    const days = term('every week { every day "S" { "A" } }', "L", "2026-09-12 to 2026-09-18");
    expect(dayOf(days, "2026-09-12").week).toBeUndefined();
    expect(dayOf(days, "2026-09-14").week).toBe(1);
  });

  it("a term across New Year counts calendar weeks from Monday on", () => {
    // ISO 8601 rule: week 1 holds the first Thursday; 2026-12-28 to 2027-01-03 is one week, 2026-W53.
    const days = term('every week { every day "S" { "A" tempo 60 to 64 } }', "L", "2026-12-21 to 2027-01-08");
    expect(
      ["2026-12-25", "2026-12-28", "2026-12-31", "2027-01-01", "2027-01-04"].map(
        (date) => dayOf(days, date).week,
      ),
    ).toEqual([1, 2, 2, 2, 3]);
    expect(itemsOf(dayOf(days, "2027-01-04"))[0]?.bpm).toBe(64);
    expect(days.days).toHaveLength(19);
  });

  it("summer time changes nothing: every day comes once", () => {
    const days = term('every week { every day "S" { "A" } }', "L", "2026-03-23 to 2026-04-03");
    expect(days.days.map((day) => day.date)).toEqual(
      Array.from({ length: 12 }, (_, i) => days.days[0]!.date + i),
    );
  });
});
