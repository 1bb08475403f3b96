import { describe, expect, test } from "vitest";
import { dayStatus } from "../../../server/features/day-status";
import { fileOf, positionOf } from "../../../server/features/lines-of";
import { termView } from "../../../server/features/term-view";
import type { DayView, FigureView, PlaceView, TermView, WeekView } from "../../../server/protocol/requests";
import { fixture } from "../../fixture";
import { checkTexts } from "../check-texts";
import { SMALL_TERM } from "./small-term";

const places = { uriOf: (path: string): string => `plan:/${path}` };

/** What is asked of a fixture whose first cursor is the place asked about. */
function asking(picture: string) {
  const files = fixture(picture);
  const checked = checkTexts(new Map(files.map((file) => [file.path, file.text])));
  const drawn = files.find((file) => file.cursor !== undefined) ?? files[0]!;
  const file = fileOf(checked, drawn.path)!;
  const position = positionOf(file, drawn.cursor ?? 0);
  const lines = (place: PlaceView | undefined): string =>
    place === undefined ? "nowhere" : file.text.split("\n")[place.range.start.line]!.trim().slice(0, 30);
  return {
    view: termView(checked, drawn.path, position, places),
    status: dayStatus(checked, drawn.path, position, places),
    lines,
  };
}

function figure({ name, text, players }: FigureView): string {
  return `${name} ${text}${players.length === 0 ? "" : ` (${players.join(", ")})`}`;
}

function line(of: DayView | WeekView): string {
  const { label, standing, remark, figures } = of;
  return [label, standing, remark, figures.map(figure).join("; ")].filter((part) => part !== "").join(" | ");
}

function drawn(view: TermView): string[] {
  return view.weeks.flatMap((week) => [
    `${line(week)} | ${week.dates}`,
    ...week.days.map((day) => `  ${line(day)}`),
  ]);
}

describe("the view of a term", () => {
  const { view, lines } = asking(SMALL_TERM);

  test("tells weeks and days with the tightest figures and what is special", () => {
    expect(view?.title).toBe("Autumn");
    expect(view?.players).toEqual(["Seniors", "R. A."]);
    // One time through is 4 s of C5 at 60 quarters to the minute; the rest after the last one does not count.
    expect(drawn(view!)).toMatchInlineSnapshot(`
      [
        "Week 1 | over | 2 days over | playing 0 of 48 min; upper 0 of 0 min (Seniors); clock 1 min | 12 Oct to 18 Oct",
        "  Mon 12 Oct | near | clock 0:04 of 10:00; playing 0:04 of 8:00; upper 0:04 of 0:04 (Seniors); stretch 0:04 of 4:00",
        "  Tue 13 Oct | light | fair | clock 0:04 of 10:00; playing 0:04 of 8:00; upper 0:04 of 0:04 (Seniors); stretch 0:04 of 4:00",
        "  Wed 14 Oct | over | lesson | clock 0:28 of 10:00; playing 0:08 of 8:00; upper 0:08 of 0:04 (Seniors); stretch 0:04 of 4:00",
        "  Thu 15 Oct | over | clock 0:28 of 10:00; playing 0:08 of 8:00; upper 0:08 of 0:04 (Seniors); stretch 0:04 of 4:00",
        "Week 2 | concert | playing 5 of 48 min; upper 0 of 0 min; clock 0 min | 19 Oct to 25 Oct",
        "  Mon 19 Oct | within | clock 0:28 of 10:00; playing 0:08 of 8:00; upper 0:00 of 0:04; stretch 0:04 of 4:00",
        "  Wed 21 Oct | within | lesson | clock 0:00 of 10:00; playing 0:00 of 8:00; upper 0:00 of 0:04; stretch 0:00 of 4:00",
        "  Sat 24 Oct | concert | Harbour concert | clock 0:00 of 10:00; playing 5:00 of 8:00; upper 0:00 of 0:04; stretch 0:00 of 4:00",
        "half-term | closed | closed | 26 Oct to 31 Oct",
      ]
    `);
  });

  test("leads to the line that asks for the day, where it is over to what adds most", () => {
    const [first, second, holidays] = view!.weeks;
    expect(lines(first!.place)).toBe("week 1 {");
    expect(first!.days.map((day) => lines(day.place))).toMatchInlineSnapshot(`
      [
        "Mon, Tue "Morning" 10 min { "H",
        "Mon, Tue "Morning" 10 min { "H",
        "Wed, Thu "Morning" 10 min { "H",
        "Wed, Thu "Morning" 10 min { "H",
      ]
    `);
    expect(second!.days.map((day) => lines(day.place))).toMatchInlineSnapshot(`
      [
        "Mon "Morning" 10 min { "High f",
        "lesson every Wed",
        "concert 2026-10-24 "Harbour co",
      ]
    `);
    expect(lines(holidays!.place)).toMatch(/^closed 2026-10-26/);
    expect(
      view!.weeks
        .flatMap((week) => [week, ...week.days])
        .every(({ place }) => place?.uri === "plan:/plan.practice"),
    ).toBe(true);
  });

  test("takes the term around the cursor, else the last above, else the first", () => {
    const two = `# Above both.
term "One" for "Nobody" {
  from 2026-10-12 to 2026-10-17
}
area "Between"
term "Two" for "Nobody" {
  from 2026-10-12 to 2026-10-17
}
`;
    const titleAt = (mark: string): string | undefined => asking(two.replace(mark, `‸${mark}`)).view?.title;
    expect(["# Above", "from 2026", "area", 'term "Two"'].map(titleAt)).toEqual(["One", "One", "One", "Two"]);
    expect(asking('area "Alone"\n').view).toBeUndefined();
  });

  test("holds no weeks where nobody plays", () => {
    expect(asking('term "One" for "Nobody" {\n  from 2026-10-12 to 2026-10-17\n}\n').view?.weeks).toEqual([]);
  });

  test("answers half-typed terms", () => {
    for (let end = 0; end < SMALL_TERM.length; end += 7) {
      const { view } = asking(`${SMALL_TERM.slice(0, end)}‸`);
      expect(view === undefined || Array.isArray(view.weeks)).toBe(true);
    }
  });
});

describe("the day under the cursor", () => {
  const dayAt = (mark: string): string | undefined => {
    const { status } = asking(SMALL_TERM.replace(mark, `${mark.slice(0, 1)}‸${mark.slice(1)}`));
    return status === undefined ? undefined : line(status.day);
  };

  test("is the fullest day of the session or the block of weeks", () => {
    expect(dayAt('"High fall"  once')).toMatchInlineSnapshot(
      `"Mon 12 Oct | near | clock 0:04 of 10:00; playing 0:04 of 8:00; upper 0:04 of 0:04 (Seniors); stretch 0:04 of 4:00"`,
    );
    expect(dayAt("Wed, Thu")).toMatchInlineSnapshot(
      `"Wed 14 Oct | over | lesson | clock 0:28 of 10:00; playing 0:08 of 8:00; upper 0:08 of 0:04 (Seniors); stretch 0:04 of 4:00"`,
    );
    expect(dayAt("week 2 {")).toMatchInlineSnapshot(
      `"Mon 19 Oct | within | clock 0:28 of 10:00; playing 0:08 of 8:00; upper 0:00 of 0:04; stretch 0:04 of 4:00"`,
    );
  });

  test("is the day of the rehearsal, the concert, the closure, the date", () => {
    expect(dayAt('"Harbour concert"')).toMatchInlineSnapshot(
      `"Sat 24 Oct | concert | Harbour concert | clock 0:00 of 10:00; playing 5:00 of 8:00; upper 0:00 of 0:04; stretch 0:00 of 4:00"`,
    );
    expect(dayAt("lesson every")).toMatchInlineSnapshot(
      `"Wed 14 Oct | over | lesson | clock 0:28 of 10:00; playing 0:08 of 8:00; upper 0:08 of 0:04 (Seniors); stretch 0:04 of 4:00"`,
    );
    expect(dayAt("2026-10-13")).toMatchInlineSnapshot(
      `"Tue 13 Oct | light | fair | clock 0:04 of 10:00; playing 0:04 of 8:00; upper 0:04 of 0:04 (Seniors); stretch 0:04 of 4:00"`,
    );
  });

  test("is none where no day is asked for", () => {
    for (const mark of ["area", "upper at most 1 min", "practice Mon to Sat", 'term "Autumn"'])
      expect(dayAt(mark), mark).toBeUndefined();
  });
});
