import { describe, expect, it } from "vitest";
import { totalsRows } from "../../../server/output/totals-rows";
import { dayChoice } from "../../../server/pages/sheet-choice";
import { type DaySheet, type DaySheetStyle, daySheet, type SheetItem } from "../../../server/pages/sheet-day";
import { GUTTER, rowsOf } from "../../../server/pages/sheet-measure";
import { isOpening } from "../../../server/pages/sheet-words";
import { parseDate } from "../../../server/plan/date";
import { minutes } from "../../../server/rules/words";
import { sampleTerms, termsOfText } from "./printing";
import { STUDIO } from "./studio";

const LOOK: DaySheetStyle = { staff: 7, width: 180, fingerings: false, keysWritten: 2 };

function sheetOf(date: string, player = "K. M.", look = LOOK): DaySheet {
  const [wanted] = dayChoice(termsOfText(STUDIO, player), parseDate(date) ?? 0, false);
  if (wanted?.kind !== "day") throw new Error(`nothing to practise on ${date}`);
  return daySheet(wanted.of, look);
}

function itemsOf(sheet: DaySheet): readonly SheetItem[] {
  return sheet.sessions.flatMap(({ lines }) => lines.filter((line) => line.kind === "item"));
}

function item(sheet: DaySheet, name: string): SheetItem {
  const found = itemsOf(sheet).find((each) => each.name.startsWith(name));
  if (found === undefined) throw new Error(`no line ${name}`);
  return found;
}

describe("the sheet of a day", () => {
  const monday = sheetOf("2026-09-14");

  it("says whose it is, which week it is, and when the next lesson comes", () => {
    expect(monday).toMatchObject({
      player: "K. M.",
      day: "Monday 14 September 2026",
      week: "Week 2 of 3",
      lesson: "Next lesson: Tuesday 15 September",
      remarks: [],
    });
    expect(sheetOf("2026-09-15").lesson).toBe("Lesson today");
  });

  it("has one aim, the week's before all others, and the session's under its name", () => {
    expect(monday.aim).toBe("listen before you play");
    expect(monday.sessions.map((each) => each.aims)).toEqual([["easy first notes"]]);
  });

  it("looks ahead: goals and concerts, soonest first, none that is over", () => {
    expect(monday.ahead).toEqual([
      "Slow fifths from memory, by the end of week 2 (in 6 days)",
      "Exam, by Tuesday 22 September (in 8 days)",
      "Harbour concert, Friday 25 September (in 11 days)",
    ]);
    expect(sheetOf("2026-09-24").ahead).toEqual(["Harbour concert, Friday 25 September (tomorrow)"]);
    expect(sheetOf("2026-09-25").remarks).toEqual(["Concert today: Harbour concert, 60 min"]);
  });

  it("has each exercise in the key of that day, at the tempo of that week", () => {
    // From C by half steps, the fourth day of the walk: Wednesday was short, Thursday light.
    // Six halves at 52 last 6.9 s, and the rest is equal.
    expect(item(monday, "Slow fifths")).toMatchObject({
      where: "E♭ major",
      amount: "twice",
      tempo: { value: "half", number: "= 52" },
      rest: "rest 7 s",
      aim: "the same ring on both",
    });
    expect(item(monday, "Études")).toMatchObject({
      where: "G major",
      amount: "once",
      rest: "horn down 20 s",
    });
    expect(item(monday, "Two rungs")).toMatchObject({
      where: "valves open, 2 and 1",
      amount: "once in each",
    });
    expect(item(monday, "Downstairs")).toMatchObject({
      where: "from C major to B♭ major",
      amount: "3 cells",
    });
    expect(item(monday, "Study")).toMatchObject({
      without: "“Quayside studies”, page 12, bars 1 to 24",
      rest: "",
    });
    expect(item(monday, "Breathing")).toMatchObject({ without: "breathing", tempo: undefined, rest: "" });
  });

  it("writes out as many keys as there is room for, and names the others", () => {
    const two = item(monday, "Two rungs");
    expect(two.music.map((each) => each.caption)).toEqual(["open", "valves 2"]);
    expect(two.further).toBe("valves 1");
    const one = item(sheetOf("2026-09-14", "K. M.", { ...LOOK, keysWritten: 1 }), "Two rungs");
    expect(one.music.map((each) => each.caption)).toEqual([""]);
    expect(one).toMatchObject({ where: "open, then valves 2 and 1", further: "" });
  });

  it("sets two lines side by side where that is lower, in their order and none twice", () => {
    const columns = { paper: "a4", words: 10 } as const;
    const look = { ...LOOK, staff: 5.5, width: 188, keysWritten: 1, density: "close", columns } as const;
    const sheet = sheetOf("2026-09-14", "K. M.", look);
    expect(itemsOf(sheet).map(({ name }) => name)).toEqual(itemsOf(monday).map(({ name }) => name));
    const rows = rowsOf(sheet.sessions[0]?.lines ?? []);
    expect(rows.flat()).toEqual(sheet.sessions[0]?.lines);
    const pairs = rows.filter((row) => row.length === 2);
    expect(pairs.length).toBeGreaterThan(0);
    for (const row of pairs) {
      const widths = row.map((line) => (line.kind === "item" ? (line.column ?? 0) : 0));
      expect(widths.reduce((sum, each) => sum + each, GUTTER)).toBeCloseTo(188, 5);
      for (const line of row)
        for (const { picture } of line.kind === "item" ? line.music : [])
          expect(picture.room).toBe(line.kind === "item" ? line.column : 0);
    }
  });

  it("shows the longest music by its opening where it is asked to, up to where nothing reaches over", () => {
    const narrow = { ...LOOK, width: 60, keysWritten: 1 };
    expect(itemsOf(sheetOf("2026-09-14", "K. M.", narrow)).some(isOpening)).toBe(false);
    const opened = itemsOf(sheetOf("2026-09-14", "K. M.", { ...narrow, openings: 1 })).filter(isOpening);
    // Of the series a whole cell of two bars, and no half one.
    expect(opened.map((each) => each.music.map(({ picture }) => picture.alt))).toEqual([
      ["Downstairs in C major, the first 2 bars, from first-space F to second-space A"],
    ]);
    const [picture] = opened.flatMap((each) => each.music.map((one) => one.picture));
    expect(picture?.lines).toBe(1);
    expect(picture?.task.musicXml).not.toContain("light-heavy");
    expect(picture?.task.musicXml.match(/<measure /g)).toHaveLength(2);
  });

  it("leaves what to listen for to the packet where there is no room for it, but for the day's aim", () => {
    const bare = sheetOf("2026-09-14", "K. M.", { ...LOOK, aims: "day" });
    expect(bare.aim).toBe(monday.aim);
    expect(itemsOf(bare).map(({ aim }) => aim)).toEqual(itemsOf(monday).map(() => ""));
  });

  it("tells those who do not see the music what it is", () => {
    const alts = itemsOf(monday).flatMap((each) => each.music.map(({ picture }) => picture.alt));
    expect(alts).toEqual([
      "Slow fifths in E♭ major, 3 bars, from first-line E♭ to top-space E♭",
      "Études № 1: crème brûlée # $ [x] *y* _z_ @w in G major, 2 bars, from second-line G to fourth-line D",
      "Two rungs, open, 2 bars, from low C to second-line G",
      "Two rungs, valves 2, 2 bars, from low B to first-space F♯",
      "Downstairs in C major, 6 bars, from first-line E♭ to second-space A",
    ]);
  });

  it("marks the short version and what is dropped first", () => {
    expect(
      itemsOf(monday)
        .filter((each) => each.inShort)
        .map((each) => each.name),
    ).toEqual(["Slow fifths"]);
    expect(itemsOf(monday).filter((each) => each.dropWhenTired)).toEqual([item(monday, "Études")]);
    expect(monday.sessions[0]).toMatchObject({
      shortVersion: ["Slow fifths in C once"],
      shortAllowed: "4 min",
    });
    const wednesday = sheetOf("2026-09-16");
    expect(wednesday.sessions[0]).toMatchObject({ short: true, shortVersion: [], allowed: "4 min" });
    expect(itemsOf(wednesday).map((each) => each.name)).toEqual(["Slow fifths"]);
    expect(sheetOf("2026-09-10").remarks).toContain("Light practice today");
  });

  it("has fingerings for first-years whether they are asked for or not", () => {
    const [wanted] = dayChoice(termsOfText(STUDIO, "Zoë"), parseDate("2026-09-14") ?? 0, false);
    expect(wanted).toMatchObject({ kind: "day", fingerings: true });
  });
});

describe("figures", () => {
  it.each([
    ["2026-27/spring.practice", "L. F."],
    ["2026-27/spring.practice", "R. A."],
    ["2026-27/autumn.practice", "T. O."],
  ])("are those of the totals, day for day: %s, %s", (file, player) => {
    let days = 0;
    for (const asked of sampleTerms(file, player)) {
      const rows = totalsRows(asked.term, "day", undefined);
      const sessions = totalsRows(asked.term, "session", undefined);
      for (const day of asked.term.days) {
        const [wanted] = dayChoice([asked], day.date, false);
        if (wanted?.kind !== "day") continue;
        days++;
        const sheet = daySheet(wanted.of, { ...LOOK, keysWritten: 1 });
        const row = rows.find((each) => each.date === day.date);
        expect(sheet.totals).toEqual({
          clock: minutes(row?.clock.value ?? -1),
          playing: minutes(row?.playing.value ?? -1),
          upper: minutes(row?.upper.value ?? -1),
          stretch: minutes(row?.stretch.value ?? -1),
          load: String(Math.round(row?.load.value ?? -1)),
        });
        expect(sheet.sessions.map((each) => each.clock)).toEqual(
          sessions.filter((each) => each.date === day.date).map((each) => minutes(each.clock.value)),
        );
      }
    }
    expect(days).toBeGreaterThan(30);
  });

  it.each([
    ["2026-27/spring.practice", "L. F."],
    ["2026-27/spring.practice", "R. A."],
  ])("of the lines add up to the session's clock: %s, %s", (file, player) => {
    const seconds = (text: string): number => {
      const [min = 0, s = 0] = text.split(":").map(Number);
      return 60 * min + s;
    };
    let sessions = 0;
    for (const asked of sampleTerms(file, player)) {
      for (const day of asked.term.days) {
        const [wanted] = dayChoice([asked], day.date, false);
        if (wanted?.kind !== "day") continue;
        for (const session of daySheet(wanted.of, { ...LOOK, keysWritten: 1 }).sessions) {
          sessions++;
          const sum = session.lines.reduce(
            (all, line) =>
              all + (line.kind === "item" ? seconds(line.clock) : 60 * Number(/\d+/.exec(line.text)?.[0])),
            0,
          );
          // Each line is rounded to whole seconds.
          expect(Math.abs(sum - seconds(session.clock))).toBeLessThanOrEqual(session.lines.length / 2 + 1);
        }
      }
    }
    expect(sessions).toBeGreaterThan(30);
  });
});
