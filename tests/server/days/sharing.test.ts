import { describe, expect, test } from "vitest";
import type { PlayerTerm } from "../../../server/days/day";
import { sharedUnrolling } from "../../../server/days/shared-unrolling";
import { unrollTerm } from "../../../server/days/unroll";
import { type Plan, playersOf } from "../../../server/plan/plan";
import { planOf } from "../plan-of";

/**
 * Players share days, items and travels where nothing keeps them apart. What is shared must be what each would have
 * had alone: every unrolling here is held against one made for the player by itself.
 */

const BOOK = `area "A"

exercise "Scale" {
  in        "A"
  key       C major
  meter     4/4
  tempo     1/4 = 60
  degrees from C4 { 1/4 1 3 5 8 | 1/1 8 | }
}

exercise "Low" {
  in        "A"
  key       C major
  meter     4/4
  tempo     1/4 = 60
  music     { 1/1 C4 | }
}

student "K." {
  instrument trumpet in Bb
  upper from G4
}

student "L." {
  instrument trumpet in Bb
  upper from C5
}

student "M." {
  instrument trumpet in Bb
}
`;

const TERM = `${BOOK}
term "T" for "K.", "L.", "M." {
  from 2026-09-07 to 2026-11-01
  practice Mon to Sat
  booked every Wed "Band" { clock 60 min  playing 20 min  upper 5 min }

  weeks 1 to 4 {
    every day "Morning" 20 min {
      "Low"  2 times
      rest 1 min
      "Scale"  keys C up by half step to F  2 times
    }
    Mon, Thu "Evening" {
      "Scale"  keys C up by half step to F  2 times  when passed
      "Scale"  in D dorian  for 2 to 5 min
      "Scale"  keys C major, D dorian  2 times
    }
  }
  weeks 5 to 8 {
    every day "Morning" {
      "Scale"  all keys C up by half step to F  next round up by octave  1 times
      "Low"  keys C up by half step to F  2 times
    }
  }
}
`;

/** All that is measured, without what is only there to be found by. */
function measured({ days, items, troubles, unfinished, restarts, weeks }: PlayerTerm): unknown {
  return { days, items, troubles, unfinished, restarts, weeks };
}

function holdsForAll(plan: Plan): number {
  let held = 0;
  for (const term of plan.own.terms) {
    const shared = sharedUnrolling(plan, term);
    for (const player of playersOf(plan, term)) {
      const days = shared(player);
      expect(days.player).toBe(player);
      expect(measured(days)).toEqual(measured(unrollTerm(plan, term, player)));
      held++;
    }
  }
  return held;
}

describe("what players share", () => {
  test("is what each would have had alone", () => {
    expect(holdsForAll(planOf(TERM))).toBe(3);
  });

  test("holds no upper register of another", () => {
    const plan = planOf(TERM);
    const term = plan.own.terms[0]!;
    const shared = sharedUnrolling(plan, term);
    const uppers = playersOf(plan, term).map((player) =>
      shared(player).days.reduce((sum, day) => sum + day.totals.upper, 0),
    );
    expect(uppers[0]).toBeGreaterThan(uppers[1]!);
    expect(uppers[1]).toBeGreaterThan(uppers[2]!);
    // What is booked asks for the lips of all.
    expect(uppers[2]).toBeGreaterThan(0);
  });

  test("is the same object where the upper line changes nothing", () => {
    const plan = planOf(TERM);
    const term = plan.own.terms[0]!;
    const [first, second] = playersOf(plan, term).map(sharedUnrolling(plan, term));
    const low = (days: PlayerTerm) =>
      days.items.filter(
        ({ exercise, passes }) =>
          exercise.name === "Low" && passes.every(({ placement }) => placement.semitones === 0),
      );
    expect(low(first!).length).toBeGreaterThan(0);
    for (const [i, item] of low(first!).entries()) expect(low(second!)[i]).toBe(item);
  });

  test("is every distinct item once, in the order of the days", () => {
    const plan = planOf(TERM);
    const term = plan.own.terms[0]!;
    for (const player of playersOf(plan, term)) {
      const { days, items } = sharedUnrolling(plan, term)(player);
      const met = new Set(days.flatMap((day) => day.sessions.flatMap((session) => session.items)));
      expect(items).toEqual([...met]);
      expect(new Set(items).size).toBe(items.length);
    }
  });
});
