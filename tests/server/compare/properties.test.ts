import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { format } from "../../../grammar/format";
import type {
  Both,
  Comparison,
  Either,
  PracticeChange,
  TermChange,
} from "../../../server/compare/comparison";
import { isEmpty } from "../../../server/compare/comparison";
import { practiceOf } from "../../../server/compare/practice";
import { unrollTerm } from "../../../server/days/unroll";
import { dateText, parseDate } from "../../../server/plan/date";
import type { Finding } from "../../../server/rules/finding";
import { coverageOf } from "../../../server/totals/coverage";
import { FIXED } from "../music/fixed-seed";
import { randomPlan } from "../plan/random-plan";
import { fileOf, itemsOf } from "../plan-of";
import { compared } from "./sides";

const RUNS = { ...FIXED, numRuns: 20 };

describe("comparing plans made at random", () => {
  test("a plan beside itself differs in nothing, laid out anew neither", () => {
    fc.assert(
      fc.property(randomPlan, (text) => {
        expect(isEmpty(compared(text, text))).toBe(true);
        expect(compared(text, format(text))).toEqual(compared(text, text));
      }),
      RUNS,
    );
  });

  test("the other way round it says the opposite", () => {
    fc.assert(
      fc.property(randomPlan, randomPlan, (a, b) => {
        expect(told(compared(b, a))).toEqual(told(turned(compared(a, b))));
      }),
      RUNS,
    );
  });

  test("a year of 52 weeks later nothing differs but the dates", () => {
    fc.assert(
      fc.property(randomPlan, (text) => {
        const later = text.replace(/\d{4}-\d{2}-\d{2}/g, (date) => {
          const day = parseDate(date);
          return day === undefined ? date : dateText(day + 52 * 7);
        });
        const { terms, ...rest } = compared(text, later);
        expect(isEmpty({ ...rest, terms: { added: [], dropped: [], changed: [] } })).toBe(true);
        for (const { term, dates, taughtWeeks, goals, practice } of terms.changed) {
          expect(dates?.after.from).toBe((dates?.before.from ?? 0) + 364);
          expect({ term, taughtWeeks, goals, practice }).toEqual({
            term: { before: "T", after: "T" },
            taughtWeeks: undefined,
            goals: { added: [], dropped: [] },
            practice: [],
          });
        }
      }),
      RUNS,
    );
  });

  test("coverage and practice add up to what the days ask for", () => {
    fc.assert(
      fc.property(randomPlan, (text) => {
        const { plan } = fileOf(text);
        for (const term of plan.terms.values()) {
          for (const player of plan.players.values()) {
            const unrolled = unrollTerm(plan, term, player);
            const items = unrolled.days.flatMap(itemsOf);
            const times = items.flatMap((item) => item.passes).reduce((sum, pass) => sum + pass.times, 0);
            const { keys, areas } = coverageOf(unrolled);
            expect(sum([...keys.values()].flatMap((each) => [...each.values()]))).toBe(times);
            expect(new Set(areas.keys())).toEqual(new Set(items.map((item) => item.exercise.area)));
            const practice = practiceOf(unrolled);
            const exercises = [...practice.exercises.values()];
            expect(sum(exercises.map((each) => each.times))).toBe(times);
            const clock = sum(items.map((item) => item.clock));
            expect(sum(exercises.map((each) => each.clock))).toBeCloseTo(clock, 4);
            expect(sum([...practice.areas.values()])).toBeCloseTo(clock, 4);
          }
        }
      }),
      RUNS,
    );
  });
});

function sum(values: readonly number[]): number {
  return values.reduce((a, b) => a + b, 0);
}

/** A comparison with before and after changed places, and what was gained lost. */
function turned({ book, players, terms, findings }: Comparison): Comparison {
  return {
    book: {
      added: book.dropped,
      dropped: book.added,
      renamed: book.renamed.map(swap),
      rewritten: book.rewritten.map(({ exercise, bars, lines }) => ({
        exercise: swap(exercise),
        bars: bars.map(swap),
        lines: lines.map(swapIn),
      })),
    },
    players: {
      added: players.dropped,
      dropped: players.added,
      changed: players.changed.map(({ player, figures }) => ({ player, figures: figures.map(swapIn) })),
    },
    terms: { added: terms.dropped, dropped: terms.added, changed: terms.changed.map(turnedTerm) },
    findings: {
      gained: findings.lost,
      lost: findings.gained,
      standsNow: findings.standsNoMore,
      standsNoMore: findings.standsNow,
    },
  };
}

function turnedTerm(change: TermChange): TermChange {
  const { term, dates, taughtWeeks, goals, newPlayers, formerPlayers, practice } = change;
  return {
    term: swap(term),
    dates: dates === undefined ? undefined : swap(dates),
    taughtWeeks: taughtWeeks === undefined ? undefined : swap(taughtWeeks),
    goals: { added: goals.dropped, dropped: goals.added },
    newPlayers: formerPlayers,
    formerPlayers: newPlayers,
    practice: practice.map(turnedPractice),
  };
}

function turnedPractice({ players, takenUp, givenUp, areas, keys, tempi, weeks }: PracticeChange) {
  return {
    players,
    takenUp: givenUp,
    givenUp: takenUp,
    areas: areas.map(swapIn),
    keys: keys.map((each) => ({ ...swapIn(each), exercise: swap(each.exercise) })),
    tempi: tempi.map((each) => ({ ...swapIn(each), exercise: swap(each.exercise) })),
    weeks: weeks.map(swapIn),
  };
}

function swap<T>({ before, after }: Both<T>): Both<T> {
  return { before: after, after: before };
}

function swapIn<T, U extends Either<T>>(change: U): U {
  return { ...change, before: change.after, after: change.before };
}

/** The comparison with its findings as text: their places lie in other trees. */
function told({ findings, ...rest }: Comparison): object {
  const text = (list: readonly Finding[]) => list.map(({ code, message }) => `${code}: ${message}`);
  return {
    ...rest,
    findings: {
      gained: text(findings.gained),
      lost: text(findings.lost),
      standsNow: text(findings.standsNow),
      standsNoMore: text(findings.standsNoMore),
    },
  };
}
