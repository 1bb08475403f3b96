import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readSource } from "../../../grammar/pieces";
import { printDeclaration } from "../../../grammar/print";
import { unrollTerm } from "../../../server/days/unroll";
import { playersOf } from "../../../server/plan/plan";
import { weekTotals } from "../../../server/totals/week";
import { FIXED } from "../music/fixed-seed";
import { fileOf, findingsOf } from "../plan-of";
import { bare } from "./bare";
import { randomPlan } from "./random-plan";

const ROOT = new URL("../../../samples", import.meta.url).pathname;
const SAMPLES = readdirSync(ROOT, { recursive: true, encoding: "utf8" })
  .filter((path) => path.endsWith(".practice"))
  .map((path) => [path, readFileSync(join(ROOT, path), "utf8")] as const);
const RUNS = { ...FIXED, numRuns: 200 } as const;

function printed(text: string): string {
  return readSource(text)
    .pieces.flatMap(({ declaration }) => (declaration === undefined ? [] : [printDeclaration(declaration)]))
    .join("\n");
}

describe("printing a tree and reading it again keeps the plan", () => {
  it.each(SAMPLES)("%s", (_, text) => {
    const before = fileOf(text);
    expect(before.unread).toEqual([]);
    const after = fileOf(printed(text));
    expect(after.unread).toEqual([]);
    expect(bare(after.plan)).toEqual(bare(before.plan));
    expect(
      after.plan.own.terms.length + after.plan.own.exercises.length + after.plan.own.players.length,
    ).toBe(before.plan.own.terms.length + before.plan.own.exercises.length + before.plan.own.players.length);
  });

  it("plans made at random", () => {
    fc.assert(
      fc.property(randomPlan, (text) => {
        const before = fileOf(text);
        expect(before.unread).toEqual([]);
        expect(bare(fileOf(printed(text)).plan)).toEqual(bare(before.plan));
      }),
      RUNS,
    );
  });

  it("tells plans apart that differ in one word", () => {
    const [, text] = SAMPLES.find(([path]) => path.includes("autumn")) ?? ["", ""];
    const other = text.replace(/twice/, "3 times");
    expect(other).not.toBe(text);
    expect(bare(fileOf(other).plan)).not.toEqual(bare(fileOf(text).plan));
  });
});

describe("whatever is asked", () => {
  it("is checked without a fall, its places inside the text and its words whole", () => {
    let found = 0;
    fc.assert(
      fc.property(randomPlan, (text) => {
        const file = fileOf(text);
        for (const finding of findingsOf(file.plan)) {
          const { start, end } = file.at(finding.place);
          expect(start).toBeGreaterThanOrEqual(0);
          expect(end).toBeGreaterThan(start);
          expect(end).toBeLessThanOrEqual(text.length);
          expect(finding.message).not.toMatch(/undefined|NaN|Infinity|\[object/);
          for (const each of finding.related) file.at(each.place);
          found++;
        }
      }),
      RUNS,
    );
    expect(found).toBeGreaterThan(1000);
  });

  it("adds up: sessions and bookings to days, days to weeks, nothing less than nothing", () => {
    let played = 0;
    fc.assert(
      fc.property(randomPlan, (text) => {
        const { plan } = fileOf(text);
        for (const term of plan.own.terms) {
          for (const player of playersOf(plan, term)) {
            const days = unrollTerm(plan, term, player);
            expect(days.days).toHaveLength(term.dates.to - term.dates.from + 1);
            for (const day of days.days) {
              for (const what of ["playing", "upper", "load", "clock"] as const) {
                const practice = day.sessions.reduce((sum, session) => sum + session[what], 0);
                const booked =
                  what === "clock" ? 0 : day.bookings.reduce((sum, each) => sum + each.asks[what], 0);
                expect(close(day.totals[what], practice + booked)).toBe(true);
                for (const session of day.sessions) {
                  if (what === "clock") continue;
                  const items = session.items.reduce((sum, item) => sum + item[what], 0);
                  expect(close(session[what], items)).toBe(true);
                }
              }
              expect(day.totals.upper).toBeLessThanOrEqual(
                day.totals.playing + day.bookings.length * 300 + 1e-6,
              );
              for (const item of day.sessions.flatMap((session) => session.items)) {
                expect(item.playing).toBeGreaterThanOrEqual(0);
                expect(item.upper).toBeLessThanOrEqual(item.playing + 1e-6);
                expect(item.playing).toBeLessThanOrEqual(item.clock + 1e-6);
                for (const pass of item.passes) expect(pass.times).toBeGreaterThanOrEqual(1);
                played++;
              }
            }
            const weeks = weekTotals(days);
            expect(weeks).toHaveLength(days.weeks);
            for (const what of ["clock", "playing", "upper", "load"] as const) {
              const all = days.days.filter((day) => day.week !== undefined);
              const inDays = all.reduce((sum, day) => sum + day.totals[what], 0);
              expect(
                close(
                  weeks.reduce((sum, week) => sum + week[what], 0),
                  inDays,
                ),
              ).toBe(true);
            }
          }
        }
      }),
      RUNS,
    );
    expect(played).toBeGreaterThan(1000);
  });
});

function close(a: number, b: number): boolean {
  return Math.abs(a - b) <= 1e-6 * Math.max(1, Math.abs(a), Math.abs(b));
}
