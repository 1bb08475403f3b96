import { describe, expect, test } from "vitest";
import { CAUTION } from "../../../server/output/totals-text";
import { html, Markup } from "../../../server/pages/markup";
import { termReport } from "../../../server/pages/term-report";
import { coverageOf } from "../../../server/totals/coverage";
import { increaseOver } from "../../../server/totals/increase";
import { tempoGrowth } from "../../../server/totals/tempo-growth";
import { weekTotals } from "../../../server/totals/week";
import { weekAllowance } from "../../../server/totals/week-allowance";
import { SMALL } from "../cli/command";
import { itemsOf, planOf, termOf } from "../plan-of";
import { BUSY } from "./busy-term";
import { tablesOf } from "./tables-of";

const busy = termOf(planOf(BUSY), "K. M.");

function reportOf(text: string, player: string): string {
  return termReport({ terms: [termOf(planOf(text), player)], caution: CAUTION, history: undefined });
}

describe("markup", () => {
  test("escapes text, in content and in attributes, and lets markup through", () => {
    const name = `<b title="x">&'`;
    expect(
      html`<p title="${name}">${name}${html`<i>${1}</i>`}${undefined}${["a", new Markup("<br>")]}</p>`.text,
    ).toBe(
      `<p title="&lt;b title=&quot;x&quot;&gt;&amp;'">&lt;b title=&quot;x&quot;&gt;&amp;'<i>1</i>a<br></p>`,
    );
  });

  test("a name in a plan never becomes a part of the page", () => {
    const text = reportOf(SMALL.replaceAll('"Fifths"', '"<script>alert(1)</script>&"'), "K. M.");
    expect(text).not.toContain("<script");
    expect(text).toContain("&lt;script&gt;alert(1)&lt;/script&gt;&amp;");
  });
});

describe("a term's page", () => {
  const page = reportOf(BUSY, "K. M.");
  const tables = tablesOf(page);

  test("needs nothing beside itself and runs nothing", () => {
    expect(page).not.toMatch(/<script|<link|<img|<iframe|url\(|@import|\son\w+=/i);
    expect(page.match(/https?:\/\/[^"]*/g)?.every((each) => each === "http://www.w3.org/2000/svg")).toBe(
      true,
    );
    expect(page).toContain("default-src 'none'");
    expect(page).toContain('<html lang="en">');
  });

  test("has a table beside each picture, and every picture a name and a sentence", () => {
    const pictures = [
      ...page.matchAll(
        /<svg [^>]*role="img"[^>]*><title id="([^"]+)">[^<]+<\/title><desc id="([^"]+)">[^<]+</g,
      ),
    ];
    expect(pictures.length).toBe(page.match(/<svg /g)?.length);
    expect(pictures.length).toBeGreaterThan(10);
    const ids = [...page.matchAll(/\sid="([^"]+)"/g)].map((match) => match[1]);
    expect(new Set(ids).size).toBe(ids.length);
    expect([...tables.keys()]).toEqual([
      "The figures of each week",
      "Clock time of each day",
      "Playing of each day",
      "Upper register of each day",
      "Longest stretch of each day",
      "Load of each day",
      "Days on which each area is touched",
      "Exercises and keys: times through (a letter alone is a major key)",
      "Exercises and valve combinations: times through",
      "Playing in each register, bookings aside",
      "Beats to the minute of each week, the fastest that is asked",
    ]);
  });

  /**
   * The busy term, by hand. Fifths 8 s at 60 and as long a rest; Steps 8 s and a breath of 2 s. Monday to Thursday
   * Fifths twice and Steps twice: 32 + 20 − 2 = 50 s by the clock, 16 + 16 = 32 s of playing; Fridays the same with
   * a band of 20 min of playing. The second calendar week is closed, the concert is on the last Friday.
   */
  test("says the figures of its weeks", () => {
    expect(tables.get("The figures of each week")).toEqual([
      ["Week", "From", "Days", "Clock", "Playing", "Increase", "Upper", "Stretch", "Load", "What is special"],
      ["1", "Mon 2026-09-07", "5", "4:10", "22:40", "–", "0:00", "0:50", expect.any(String), ""],
      ["2", "Mon 2026-09-21", "5", "4:10", "22:40", "–", "0:00", "0:50", expect.any(String), ""],
      [
        "3",
        "Mon 2026-09-28",
        "5",
        "4:10",
        "32:40",
        "+44 %",
        "2:00",
        "0:50",
        expect.any(String),
        "concert “Fair”",
      ],
    ]);
  });

  test("says the figures of its days, with closed days left out and concerts marked", () => {
    expect(tables.get("Playing of each day")).toEqual([
      ["Week", "Mon", "Tue", "Wed", "Thu", "Fri"],
      ["1", "0:32", "0:32", "0:32", "0:32", "20:32"],
      ["2", "0:32", "0:32", "0:32", "0:32", "20:32"],
      ["3", "0:32", "0:32", "0:32", "0:32", "30:32 ▲"],
    ]);
    // Over the fifteen minutes a day that the player may play: three Fridays, one on the last with the concert.
    expect(page.match(/<td class="over">[^<]*32/g)).toHaveLength(3);
  });

  test("says what is covered, and its sums are those of the days", () => {
    const keys = tables.get("Exercises and keys: times through (a letter alone is a major key)");
    // Fifteen days: C, D and A minor in turn; Steps in C alone.
    expect(keys).toEqual([
      ["Exercise", "C", "D", "A minor"],
      ["Fifths", "10", "10", "10"],
    ]);
    expect(tables.get("Exercises and valve combinations: times through")).toEqual([
      ["Exercise", "open", "2"],
      ["Steps", "16", "14"],
    ]);
    const times = [...coverageOf(busy).keys.values()].flatMap((each) => [...each.values()]);
    const asked = busy.days.flatMap(itemsOf).flatMap((item) => item.passes.map((pass) => pass.times));
    expect(times.reduce((a, b) => a + b)).toBe(asked.reduce((a, b) => a + b));
    expect(tables.get("Days on which each area is touched")).toEqual([
      ["Area", "Days", "Mon", "Tue", "Wed", "Thu", "Fri", "Left alone"],
      ["Tones", "15", "3", "3", "3", "3", "3", "0"],
      ["Slurs", "15", "3", "3", "3", "3", "3", "0"],
    ]);
    expect(tables.get("Beats to the minute of each week, the fastest that is asked")).toEqual([
      ["Exercise", "Counted", "1", "2", "3"],
      ["Fifths", "quarter", "60", "60", "60"],
      ["Steps", "quarter", "60", "60", "60"],
    ]);
  });

  test("of a term without a taught week says so", () => {
    const closed = BUSY.replace("closed 2026-09-14 to 2026-09-19", "closed 2026-09-01 to 2026-10-31");
    expect(reportOf(closed, "K. M.")).toContain("No week of this term is taught");
  });

  test("has the disputed figures only when they are asked for, under what they cannot say", () => {
    expect(page).not.toMatch(/monotony/i);
    const asked = termReport({
      terms: [busy],
      caution: CAUTION,
      history: { method: "weighted", caution: "None has been tried on brass players." },
    });
    expect(asked).toMatch(/None has been tried on brass players\.[\s\S]*Monotony/);
  });
});

describe("figures of a term", () => {
  test("the tempo of each week, also where another value is counted", () => {
    const growing = BUSY.replace("keys C, D, A minor", "keys C, D, A minor  tempo 1/8 = 120 to 160");
    const [fifths] = tempoGrowth(termOf(planOf(growing), "K. M."));
    expect(fifths).toMatchObject({ exercise: "Fifths", weeks: [60, 70, 80] });
  });

  test("the increase over the week before, and none after a holiday", () => {
    const [first, second, third] = weekTotals(busy);
    if (first === undefined || second === undefined || third === undefined) throw new Error("three weeks");
    expect(increaseOver(undefined, first)).toBeUndefined();
    expect(increaseOver(first, second)).toBeUndefined();
    // 32 min 40 s over 22 min 40 s.
    expect(increaseOver(second, third)).toBeCloseTo(1960 / 1360 - 1, 9);
  });

  test("what a week may hold: as stated, or its days together", () => {
    const [first] = weekTotals(busy);
    if (first === undefined) throw new Error("a week");
    // Five days of 15 minutes.
    expect(weekAllowance(busy, first, "playing")).toBe(5 * 15 * 60);
    expect(weekAllowance(busy, first, "load")).toBeUndefined();
    const stated = BUSY.replace("each day {", "each week { playing at most 1 h }\n  each day {");
    expect(weekAllowance(termOf(planOf(stated), "K. M."), first, "playing")).toBe(3600);
  });
});
