import { describe, expect, it } from "vitest";
import type { PlayerTerm } from "../../../server/days/day";
import { parseDate } from "../../../server/plan/date";
import { keySign } from "../key-sign";
import { findingsOf, itemsOf, planOf, termOf } from "../plan-of";

const BOOK = `
area "Scales"
exercise "A" { in "Scales"  key C major  meter 4/4  tempo 1/4 = 60  music { 1/1 C4 | } }
exercise "G" { in "Scales"  key G major  meter 4/4  tempo 1/4 = 60  music { 1/1 G4 | } }
exercise "D" { in "Scales"  key C major  meter 4/4  tempo 1/4 = 60  degrees from C4 { 1/4 1 3 5 3 | } }
exercise "P" { in "Scales"  meter 4/4  tempo 1/4 = 60  partials { 1/4 lip (2 3 4 3) | } }
level "L" { stage college }
`;

/** A term of four weeks of five days in which one assignment is all there is. */
function travelling(assignment: string, more = ""): PlayerTerm {
  return termOf(
    planOf(`${BOOK}
term "T" for "L" {
  from 2026-09-07 to 2026-10-02
  practice Mon to Fri
  every week { every day "S" { ${assignment} } }
  ${more}
}`),
    "L",
  );
}

/** What was played on each practice day. */
function keys(term: PlayerTerm, days: number): readonly string[] {
  return term.days
    .filter((day) => day.sessions.length > 0)
    .slice(0, days)
    .map((day) => itemsOf(day).map(keySign).join(" / "));
}

function shifts(term: PlayerTerm, days: number): readonly number[] {
  return term.days
    .filter((day) => day.sessions.length > 0)
    .slice(0, days)
    .flatMap((day) => itemsOf(day).flatMap((item) => item.passes.map((pass) => pass.placement.semitones)));
}

describe("lists of keys", () => {
  it("each lies as near as can be to home, the tritone above", () => {
    const term = travelling('"A" keys F, G, Bb, F#, Db, B, Gb');
    expect(shifts(term, 7)).toEqual([5, -5, -2, 6, 1, -1, 6]);
    expect(keys(term, 7)).toEqual(["F", "G", "B♭", "F♯", "D♭", "B", "G♭"]);
  });

  it("above and below say otherwise", () => {
    expect(shifts(travelling('"A" keys F below, G above, C above, C below, F above, G below'), 6)).toEqual([
      -7, 7, 12, -12, 5, -5,
    ]);
  });

  it("a home key other than C counts from itself", () => {
    expect(shifts(travelling('"G" keys C, G, Db, A'), 4)).toEqual([5, 0, 6, 2]);
  });

  it("one key a day without `all`, every key each day with it", () => {
    expect(keys(travelling('"A" keys C, F'), 3)).toEqual(["C", "F", "C"]);
    expect(keys(travelling('"A" all keys C, F'), 2)).toEqual(["C, F", "C, F"]);
  });
});

describe("walks", () => {
  // By definition: half step 1, whole step 2, minor third 3, major third 4, fourth 5, fifth 7 half steps.
  it.each([
    ["half step", "Eb", [0, 1, 2, 3]],
    ["whole step", "E", [0, 2, 4]],
    ["minor third", "A", [0, 3, 6, 9]],
    ["major third", "Ab", [0, 4, 8]],
    ["fourth", "Bb", [0, 5, 10]],
    ["fifth", "D", [0, 7, 14]],
    ["whole step", "C", [0, 2, 4, 6, 8, 10, 12]],
  ] as const)("up by %s to %s", (step, end, expected) => {
    const term = travelling(`"A" keys C up by ${step} to ${end}`);
    expect(shifts(term, expected.length)).toEqual(expected);
    expect(shifts(term, expected.length + 1).at(-1)).toBe(0);
  });

  it.each([
    ["half step", "A", [0, -1, -2, -3]],
    ["fourth", "D", [0, -5, -10]],
  ] as const)("down by %s to %s", (step, end, expected) => {
    expect(shifts(travelling(`"A" keys C down by ${step} to ${end}`), expected.length)).toEqual(expected);
  });

  it("an end of the same name is an octave, its keys spelled as they are commonly", () => {
    const term = travelling('"A" keys C up by half step to C');
    expect(keys(term, 13)).toEqual(["C", "D♭", "D", "E♭", "E", "F", "F♯", "G", "A♭", "A", "B♭", "B", "C"]);
    expect(shifts(term, 13).at(-1)).toBe(12);
  });

  it("folded brings an octave or more back", () => {
    expect(shifts(travelling('"A" keys C up by fifth to D folded'), 3)).toEqual([0, 7, 2]);
    expect(shifts(travelling('"A" keys C up by half step to C folded'), 13).at(-1)).toBe(0);
    expect(shifts(travelling('"A" keys C down by fifth to Bb folded'), 3)).toEqual([0, -7, -2]);
  });

  it("the next round is moved by its step, and the one after by twice the step", () => {
    const term = travelling('"A" keys C up by whole step to E next round up by half step');
    expect(shifts(term, 9)).toEqual([0, 2, 4, 1, 3, 5, 2, 4, 6]);
    expect(shifts(travelling('"A" keys C, F next round down by whole step'), 5)).toEqual([0, 5, -2, 3, -4]);
  });

  it("a walk with a next round does not start over", () => {
    expect(travelling('"A" keys C, F next round up by half step').restarts).toEqual([]);
    expect(travelling('"A" keys C, F').restarts.map((each) => [each.keys, each.date])).toEqual([
      [2, parseDate("2026-09-09")],
    ]);
  });

  it("an end that the steps never reach is an error, and the walk stays at its start", () => {
    const term = travelling('"A" keys C up by whole step to F');
    expect(term.troubles.map((each) => each.kind)).toEqual(["walk-unreachable"]);
    expect(shifts(term, 3)).toEqual([0, 0, 0]);
  });

  it("a minor walk stays in minor where degrees allow it", () => {
    const term = travelling('"D" keys A minor up by half step to B');
    expect(term.troubles).toEqual([]);
    expect(keys(term, 3)).toEqual(["A minor", "B♭ minor", "B minor"]);
  });

  it("written notes cannot change their mode", () => {
    expect(travelling('"A" in A minor').troubles.map((each) => each.kind)).toEqual(["other-mode"]);
    expect(travelling('"D" in A minor').troubles).toEqual([]);
  });

  it("valves walk the seven combinations, each a half step lower", () => {
    const term = travelling('"P" valves open to 123');
    expect(shifts(term, 8)).toEqual([0, -1, -2, -3, -4, -5, -6, 0]);
    expect(keys(term, 7)).toEqual([
      "open",
      "valves 2",
      "valves 1",
      "valves 12",
      "valves 23",
      "valves 13",
      "valves 123",
    ]);
    expect(keys(travelling('"P" valves open, 13'), 3)).toEqual(["open", "valves 13", "open"]);
    expect(travelling('"P" in G').troubles.map((each) => each.kind)).toEqual(["no-key"]);
    expect(travelling('"A" valves open to 123').troubles.map((each) => each.kind)).toEqual(["no-valves"]);
  });
});

describe("pacing", () => {
  it("afresh starts from the first key each day", () => {
    expect(keys(travelling('"A" keys C, F, G afresh'), 3)).toEqual(["C", "C", "C"]);
  });

  it("minutes: as many keys as fit, and onward goes on where they ended", () => {
    // One time through lasts 4 s, with 2 s of breath after it: 18 s hold three, exactly.
    const term = travelling('"A" all keys C up by half step to Eb for 0.3 min');
    expect(keys(term, 4)).toEqual(["C, D♭, D", "E♭, C, D♭", "D, E♭, C", "D♭, D, E♭"]);
    expect(keys(travelling('"A" all keys C up by half step to Eb for 0.3 min afresh'), 2)).toEqual([
      "C, D♭, D",
      "C, D♭, D",
    ]);
  });

  it("a closed day and a light day: only days on which it is played count", () => {
    const term = travelling('"A" keys C, F, G', "closed 2026-09-08\n light 2026-09-09");
    expect(keys(term, 3)).toEqual(["C", "F", "G"]);
  });

  it("waits for the lesson, and lessons to come are taken as passed", () => {
    const term = travelling('"A" keys C, F, G when passed', "lesson every Wed");
    expect(keys(term, 13)).toEqual(["C", "C", "C", "F", "F", "F", "F", "F", "G", "G", "G", "G", "G"]);
  });

  it("a lesson that falls away passes nothing", () => {
    const term = travelling('"A" keys C, F, G when passed', "lesson every Wed\n no lesson 2026-09-09");
    expect(keys(term, 9)).toEqual(["C", "C", "C", "C", "C", "C", "C", "C", "F"]);
  });

  it("waits for lessons too where another exercise stood in its place at first", () => {
    const plan = planOf(`${BOOK}
exercise "Page" {
  in     "Flow"
  printed "A study" page 3
  range  C4 to G4
  lasts  1 min
}
term "T" for "L" {
  from 2026-09-07 to 2026-10-02
  practice Mon to Fri
  lesson every Wed
  every week { every day "S" { "A" keys C, F, G when passed } }
  change "L" { replace "A" with "Page" from 2026-09-07 to 2026-09-08 }
}`);
    const played = keys(termOf(plan, "L"), 13);
    expect(played.slice(2)).toEqual(["C", "F", "F", "F", "F", "F", "G", "G", "G", "G", "G"]);
  });

  it("without any lesson a walk that waits for one is noted", () => {
    expect(travelling('"A" keys C, F when passed').troubles.map((each) => each.kind)).toEqual([
      "when-passed-no-lesson",
    ]);
  });

  it("the record says what passed, in the key that was played or whatever the key", () => {
    const plan = planOf(`${BOOK}
term "T" for "L" {
  from 2026-09-07 to 2026-10-02
  practice Mon to Fri
  lesson every Wed
  every week { every day "S" { "A" keys C, F, G when passed } }
}
record of "T" {
  2026-09-09 "L" not passed "A" in C
  2026-09-16 "L" not passed "A" in F
  2026-09-23 "L" not passed "A"
}`);
    const term = termOf(plan, "L");
    // Not in C: stays. Not in F is said of another key than the one played: C passes. Then F does not.
    expect(keys(term, 20).filter((_, i) => i % 5 === 4)).toEqual(["C", "F", "F", "G"]);
    expect(findingsOf(plan).filter((each) => each.severity === "error")).toEqual([]);
  });
});
