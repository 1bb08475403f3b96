import { dateText, spokenDate } from "../plan/date";
import { csvText } from "./csv";
import { clockText } from "./numbers";
import { safeText } from "./safe-text";
import { type Column, tableText } from "./table";
import type { Figure, Grain, TotalsRow } from "./totals-rows";

const COLUMNS: readonly Column[] = [
  { title: "Day", figures: false },
  { title: "Week", figures: true },
  { title: "Session", figures: false },
  { title: "Days", figures: true },
  { title: "Clock", figures: true },
  { title: "Playing", figures: true },
  { title: "Upper", figures: true },
  { title: "Stretch", figures: true },
  { title: "Load", figures: true },
  { title: "", figures: false },
];

/** Said once under every table of totals. */
export const CAUTION =
  "Stop when it hurts, whatever the plan says. The load is a model of pressure, not of fatigue, and not for\ncomparing students.";

/** How the columns are to be read, where bookings count. */
export const COUNTING =
  "The clock is of practice alone; playing, upper, stretch and load count bookings too.";

/** Totals as a table for a person, a heading for each player's term. */
export function totalsText(rows: readonly TotalsRow[], grain: Grain): string {
  const groups = new Map<string, TotalsRow[]>();
  for (const row of rows) {
    const heading = `${safeText(row.term)}: ${safeText(row.player)}`;
    const group = groups.get(heading);
    if (group === undefined) groups.set(heading, [row]);
    else group.push(row);
  }
  return [...groups]
    .map(
      ([heading, group]) =>
        `${heading}\n\n${tableText(
          COLUMNS,
          group.map((row) => cells(row, grain)),
        )}`,
    )
    .join("\n\n");
}

function cells(row: TotalsRow, grain: Grain): readonly string[] {
  return [
    row.date === undefined ? "" : spokenDate(row.date),
    row.week === undefined ? "" : String(row.week),
    safeText(row.session ?? ""),
    grain === "week" || grain === "term" ? String(row.days) : "",
    time(row.clock),
    time(row.playing),
    time(row.upper),
    time(row.stretch),
    points(row.load),
    safeText(row.remark),
  ];
}

function time({ value, budget }: Figure): string {
  return budget === undefined ? clockText(value) : `${clockText(value)} of ${clockText(budget)}`;
}

function points({ value, budget }: Figure): string {
  const whole = String(Math.round(value));
  return budget === undefined ? whole : `${whole} of ${Math.round(budget)}`;
}

const MEASURES = ["clock", "playing", "upper", "stretch", "load"] as const;

/** Totals as a table for a spreadsheet: seconds and points, an empty field where no budget was set. */
export function totalsCsv(rows: readonly TotalsRow[]): string {
  const heading = [
    ...["term", "player", "week", "date", "session", "days"],
    ...MEASURES.flatMap((each) => {
      const unit = each === "load" ? "points" : "seconds";
      return [`${each} (${unit})`, `${each} budget (${unit})`];
    }),
    "remark",
  ];
  return csvText([
    heading,
    ...rows.map((row) => [
      row.term,
      row.player,
      row.week ?? "",
      row.date === undefined ? "" : dateText(row.date),
      row.session ?? "",
      row.days,
      ...MEASURES.flatMap((each) => [row[each].value, row[each].budget ?? ""]),
      row.remark,
    ]),
  ]);
}

/** Totals as other programs read them. */
export function totalsData(rows: readonly TotalsRow[]): readonly object[] {
  return rows.map((row) => ({
    term: row.term,
    player: row.player,
    week: row.week ?? null,
    date: row.date === undefined ? null : dateText(row.date),
    session: row.session ?? null,
    days: row.days,
    ...Object.fromEntries(
      MEASURES.map((each) => [each, { value: rounded(row[each].value), budget: row[each].budget ?? null }]),
    ),
    remark: row.remark,
  }));
}

function rounded(value: number): number {
  return Math.round(value * 1000) / 1000;
}
