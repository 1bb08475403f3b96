import { describe, expect, it } from "vitest";
import { dateText, isoWeek, mondayOf, parseDate, spokenDate, weekdayOf } from "../../../server/plan/date";

function iso(text: string): string {
  const day = parseDate(text);
  if (day === undefined) throw new Error(`no date ${text}`);
  const { year, week } = isoWeek(day);
  return `${year}-W${String(week).padStart(2, "0")}-${weekdayOf(day) + 1}`;
}

describe("ISO weeks", () => {
  // ISO 8601 rule: week 1 holds the first Thursday.
  it.each([
    ["2025-12-29", "2026-W01-1"],
    ["2026-12-31", "2026-W53-4"],
    ["2027-01-03", "2026-W53-7"],
    ["2027-01-04", "2027-W01-1"],
    ["2022-12-31", "2022-W52-6"],
  ])("%s is %s", (date, week) => expect(iso(date)).toBe(week));

  it("2022-12-31 is not 2023-W01-6", () => {
    // Wrong on purpose in shared/facts.md: a checker must disagree.
    expect(iso("2022-12-31")).not.toBe("2023-W01-6");
  });

  it("finds 53 weeks in 2026 and in no other year from 2021 to 2031", () => {
    // ISO 8601 rule: a year has 53 weeks where it holds 53 Thursdays; 28 December is always in its last week.
    const long = [];
    for (let year = 2021; year <= 2031; year++) if (iso(`${year}-12-28`).includes("W53")) long.push(year);
    expect(long).toEqual([2026]);
  });
});

describe("dates", () => {
  it.each([
    "2026-02-30",
    "2026-02-31",
    "2025-02-29",
    "2026-13-01",
    "2026-00-10",
    "0000-01-01",
    "1899-12-31",
    "2200-01-01",
    "2026-04-31",
    "26-04-01",
    "",
  ])("there is no day %j", (text) => expect(parseDate(text)).toBeUndefined());

  it("has leap days where the calendar has them", () => {
    // Gregorian rule: by four, not by a hundred, but by four hundred.
    expect(parseDate("2028-02-29")).toBeDefined();
    expect(parseDate("2000-02-29")).toBeDefined();
    expect(parseDate("1900-02-29")).toBeUndefined();
    expect(parseDate("2100-02-29")).toBeUndefined();
  });

  it("counts days that lie one after the other, and writes each as it reads it", () => {
    const first = parseDate("1900-01-01") ?? Number.NaN;
    const last = parseDate("2199-12-31") ?? Number.NaN;
    // 300 years of 365 days, 75 multiples of four less 1900 and 2100.
    expect(last - first + 1).toBe(300 * 365 + 75 - 2);
    for (let day = first; day <= last; day += 13) expect(parseDate(dateText(day))).toBe(day);
  });

  it("knows weekdays", () => {
    // 2026-11-17 is a Tuesday; 1970-01-01 was a Thursday (POSIX epoch).
    expect(spokenDate(parseDate("2026-11-17") ?? 0)).toBe("Tue 2026-11-17");
    expect(weekdayOf(0)).toBe(3);
    expect(dateText(mondayOf(parseDate("2027-01-03") ?? 0))).toBe("2026-12-28");
    expect(weekdayOf(parseDate("1900-01-01") ?? 0)).toBe(0);
  });
});
