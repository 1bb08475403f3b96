import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import type { DayItem } from "../../../server/days/day";
import { keySign } from "../key-sign";
import { dayOf, itemsOf, planOf, termOf } from "../plan-of";

/** The worked table of grammar/REFERENCE.md, read from the page itself and computed. */

const PAGE = readFileSync(new URL("../../../grammar/REFERENCE.md", import.meta.url), "utf8");

const rows = PAGE.slice(PAGE.indexOf("### A worked table"), PAGE.indexOf("### Routines"))
  .split("\n")
  .filter((line) => line.startsWith("| ") && /\d{4}-\d\d-\d\d/.test(line))
  .map((line) =>
    line
      .split("|")
      .slice(1, -1)
      .map((cell) => cell.trim()),
  );

/** The term that the words above the table describe. */
const PLAN = planOf(`
area "Scales"
exercise "A" { in "Scales"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/1 C4 | } }
level "L" { stage senior }
term "T" for "L" {
  from 2027-02-01 to 2027-02-17
  practice Mon to Wed
  closed 2027-02-09
  short 2027-02-17
  lesson every Wed
  every week {
    every day "One" { "A" keys C up by half step to Eb  short { rest 1 min } }
    every day "Two" { "A" keys C up by half step to Eb next round up by half step  short { rest 1 min } }
    every day "Three" { "A" keys C up by half step to Eb afresh  short { rest 1 min } }
    every day "Four" { "A" keys C up by half step to Eb when passed  short { rest 1 min } }
    every day "Five" { "A" tempo 60 to 64  short { rest 1 min } }
    every day "Six" { "A" 2 to 4 times  short { rest 1 min } }
  }
}
record of "T" {
  2027-02-03 "L" passed "A"
  2027-02-10 "L" not passed "A"
}
`);

const term = termOf(PLAN, "L");

function cell(column: number, item: DayItem | undefined, startsOver: boolean): string {
  if (item === undefined) return "–";
  if (column === 6) return String(item.bpm);
  if (column === 7) return String(item.passes[0]?.times);
  return keySign(item) + (startsOver ? ", starts over" : "");
}

describe("the worked table of the reference", () => {
  it("has nine rows of eight cells", () => {
    expect(rows.map((row) => row.length)).toEqual(Array.from({ length: 9 }, () => 8));
  });

  it.each(rows.map((row) => [row[0] ?? "", row] as const))("%s", (head, row) => {
    const date = /\d{4}-\d\d-\d\d/.exec(head)?.[0] ?? "";
    const day = dayOf(term, date);
    expect(String(day.week)).toBe(row[1]);
    expect(day.state).toBe(head.includes("closed") ? "closed" : "practice");
    expect(day.lesson).toBe(head.includes("lesson") || head.includes("short"));
    expect(day.sessions.every((session) => session.short)).toBe(
      head.includes("short") || head.includes("closed"),
    );
    const computed = ["One", "Two", "Three", "Four", "Five", "Six"].map((name, index) => {
      const item = day.sessions.find((session) => session.session.name === name)?.items[0];
      const over = term.restarts.some(
        (each) => each.assignment === item?.assignment && each.date === day.date,
      );
      return cell(index + 2, item, over);
    });
    expect(computed).toEqual(row.slice(2));
  });

  it("has three taught weeks", () => {
    expect(term.weeks).toBe(3);
    expect(itemsOf(dayOf(term, "2027-02-01"))).toHaveLength(6);
  });
});
