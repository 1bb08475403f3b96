import { describe, expect, it } from "vitest";
import { placementName } from "../../../server/days/placement";
import { packetLook } from "../../../server/output/packet-print";
import { totalsRows } from "../../../server/output/totals-rows";
import { packetChoice, weekChoice } from "../../../server/pages/sheet-choice";
import { bookPlacements, packet } from "../../../server/pages/sheet-packet";
import {
  amountWords,
  restWords,
  sheetTempo,
  tempoWords,
  whereWords,
} from "../../../server/pages/sheet-words";
import { minutes } from "../../../server/rules/words";
import { TRUMPET } from "../notation/samples";
import { planOf } from "../plan-of";
import { termsOfText } from "./printing";
import { STUDIO } from "./studio";

const [AUTUMN] = termsOfText(STUDIO, "K. M.");
if (AUTUMN === undefined) throw new Error("no term");
const A4 = { paper: "a4", large: false } as const;

describe("the sheet of a week", () => {
  const [first, ...days] = weekChoice(AUTUMN, 2, { days: true, fingerings: false });
  const week = first?.kind === "week" ? first.sheet : undefined;

  it("is followed by the sheets of its days", () => {
    expect(days.map((each) => each.kind)).toEqual(["day", "day", "day", "day", "day"]);
    expect(weekChoice(AUTUMN, 2, { days: false, fingerings: false })).toHaveLength(1);
    expect(weekChoice(AUTUMN, 9, { days: true, fingerings: false })).toEqual([]);
  });

  it("shows on which day each exercise is played, and in which key", () => {
    expect(week).toMatchObject({
      week: "Week 2 of 3",
      dates: "Monday 14 September to Sunday 20 September 2026",
    });
    expect(week?.columns).toEqual([
      { label: "Mon 14", remark: "" },
      { label: "Tue 15", remark: "lesson" },
      { label: "Wed 16", remark: "short" },
      { label: "Thu 17", remark: "" },
      { label: "Fri 18", remark: "" },
    ]);
    const rows = new Map(week?.sessions[0]?.rows.map((row) => [row.name, row]));
    expect(rows.get("Slow fifths")?.cells).toEqual(["E♭", "E", "C", "C", "D♭"]);
    expect(rows.get("Breathing")?.cells).toEqual(["·", "·", "", "·", "·"]);
    expect(rows.get("Two rungs")).toMatchObject({
      detail: "quarter = 60, once in each",
      cells: ["open, 2 and 1", "open, 2 and 1", "", "open, 2 and 1", "open, 2 and 1"],
    });
    expect(rows.get("Downstairs")?.cells[0]).toBe("C to B♭");
  });

  it("adds up as the totals do", () => {
    const byDay = totalsRows(AUTUMN.term, "day", 2).map((row) => minutes(row.playing.value));
    const [whole] = totalsRows(AUTUMN.term, "week", 2);
    expect(week?.totals.map((each) => each.playing)).toEqual([...byDay, minutes(whole?.playing.value ?? -1)]);
  });
});

describe("a packet", () => {
  const plan = planOf(STUDIO);
  const asked = {
    title: "Book",
    lines: [],
    plan,
    instrument: TRUMPET,
    player: plan.players.get("K. M."),
    terms: [AUTUMN.term],
    keys: "travelled",
  } as const;

  it("has an area per chapter with its aims, and each exercise in the order of the book", () => {
    const made = packet(packetChoice(asked, plan.exercises), packetLook(A4, false));
    expect(made.areas.map((area) => [area.name, area.aims, area.exercises.map((each) => each.name)])).toEqual(
      [
        ["Tones", ["one even ribbon"], ["Slow fifths", "Two rungs", "Downstairs", "Breathing"]],
        ["Songs", [], ["Études № 1: crème brûlée # $ [x] *y* _z_ @w", "Study"]],
      ],
    );
    const [fifths, rungs] = made.areas[0]?.exercises ?? [];
    expect(fifths?.music.map((each) => each.caption)).toEqual([
      "C major",
      "D♭ major",
      "D major",
      "E♭ major",
      "E major",
    ]);
    expect(fifths?.facts).toEqual(["low C (C4) to top-space E (E5)", "rest as long as you played"]);
    expect(fifths?.tempo && tempoWords(fifths.tempo)).toBe("half = 50, growing to 54");
    expect(rungs?.music.map((each) => each.caption)).toEqual(["open", "valves 2", "valves 1"]);
  });

  it("leaves areas out that nothing in the term belongs to", () => {
    const only = new Map([...plan.exercises].filter(([name]) => name === "Slow fifths"));
    const made = packet(packetChoice(asked, only), packetLook(A4, false));
    expect(made.areas.map((area) => area.name)).toEqual(["Tones"]);
  });

  it("goes through twelve keys within the player's limit, near home where it can", () => {
    const fifths = plan.exercises.get("Slow fifths");
    if (fifths === undefined) throw new Error("no exercise");
    const where = { instrument: TRUMPET, settings: plan.settings };
    const limit = plan.players.get("K. M.")?.figures.limit?.value;
    const all = bookPlacements(fifths, where, "all", limit);
    // C4–C5 within F♯3–C6: seven half steps up would lie farther from home than five down.
    expect(all.map((each) => each.semitones)).toEqual([0, 1, 2, 3, 4, 5, 6, -5, -4, -3, -2, -1]);
    expect(all.map(placementName)).toContain("F♯ major");
    const low = { low: { step: 0, alter: 0, octave: 4 }, high: { step: 5, alter: 0, octave: 5 } };
    expect(bookPlacements(fifths, where, "all", low).map((each) => each.semitones)).toEqual([
      0, 1, 2, 3, 4, 5, 6, 7, 8, 9,
    ]);
    expect(bookPlacements(fifths, where, "home", limit).map(placementName)).toEqual(["C major"]);
  });

  it("writes a series once, for it travels by itself", () => {
    const series = plan.exercises.get("Downstairs");
    if (series === undefined) throw new Error("no exercise");
    expect(
      bookPlacements(series, { instrument: TRUMPET, settings: plan.settings }, "all", undefined),
    ).toHaveLength(1);
  });
});

describe("words", () => {
  const settings = { hornDown: 15, breathBetween: 2 };

  it.each([
    [2, ""],
    [8, "rest 8 s"],
    [14.4, "rest 14 s"],
    [15, "horn down 15 s"],
    [90, "horn down 90 s"],
  ])("call a rest of %d s “%s”", (seconds, words) => {
    expect(restWords(seconds, settings)).toBe(words);
  });

  it("say tempi with the note that is counted", () => {
    expect(tempoWords(sheetTempo({ num: 3, den: 8 }, 60))).toBe("dotted quarter = 60");
    expect(tempoWords(sheetTempo({ num: 1, den: 4 }, 50, 58))).toBe("quarter = 50 to 58, as you choose");
  });

  it("name nothing where there is nothing to name", () => {
    expect(whereWords([])).toBe("");
    const [session] = AUTUMN.term.days[0]?.sessions ?? [];
    const breathing = session?.items[0];
    if (breathing === undefined) throw new Error("no item");
    expect(whereWords(breathing.passes)).toBe("");
    expect(amountWords(breathing)).toBe("once");
  });
});
