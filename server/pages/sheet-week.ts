/** One player's week on one page: what is played on which day, in which key, and the figures of each day. */
import type { Day, DayItem, PlayerTerm } from "../days/day";
import { noteSign } from "../music/pitch";
import { dateText, mondayOf, WEEKDAYS, weekdayOf } from "../plan/date";
import { list } from "../rules/words";
import { weekTotals } from "../totals/week";
import { ahead, type SheetTotals, totalsWords } from "./sheet-day";
import { amountWords, dayAndMonth, longDate, sheetTempo, tempoWords } from "./sheet-words";

export interface WeekColumn {
  /** `Mon 11`. */
  readonly label: string;
  /** A lesson, a booking, a closure; empty on an ordinary day. */
  readonly remark: string;
}

export interface WeekRow {
  readonly name: string;
  /** Tempo and amount, where they are the same all week. */
  readonly detail: string;
  readonly dropWhenTired: boolean;
  /** For each day the key, `·` where it has none, empty where the exercise is not played. */
  readonly cells: readonly string[];
}

export interface WeekSheet {
  readonly player: string;
  readonly term: string;
  readonly week: string;
  readonly dates: string;
  /** The first day of its calendar week. */
  readonly monday: number;
  readonly aim: string;
  readonly ahead: readonly string[];
  readonly columns: readonly WeekColumn[];
  readonly sessions: readonly { readonly name: string; readonly rows: readonly WeekRow[] }[];
  /** One for each day, then one for the week. */
  readonly totals: readonly SheetTotals[];
}

/** Played, and in no key. */
const NO_KEY = "·";

/** The sheet of a taught week; undefined where nothing is practised in it. */
export function weekSheet(term: PlayerTerm, week: number): WeekSheet | undefined {
  const days = term.days.filter((day) => day.week === week);
  const shown = days.filter((day) => day.sessions.length > 0 || day.bookings.length > 0 || isOff(day));
  const [first, last] = [days[0], days.at(-1)];
  const whole = weekTotals(term).find((each) => each.week === week);
  if (first === undefined || last === undefined || whole === undefined) return undefined;
  if (!days.some((day) => day.sessions.length > 0)) return undefined;
  return {
    player: term.player.name,
    term: term.term.name,
    week: `Week ${week} of ${term.weeks}`,
    monday: mondayOf(first.date),
    dates: `${dayAndMonth(first.date)} to ${longDate(last.date)}`,
    aim: aimOf(term, week) ?? "",
    ahead: ahead(term, first.date),
    columns: shown.map((day) => ({ label: dayLabel(day), remark: remarkOf(day) })),
    sessions: sessionRows(shown),
    totals: [...shown.map((day) => totalsWords(day.totals)), totalsWords(whole)],
  };
}

function isOff(day: Day): boolean {
  return day.state === "closed" || day.state === "ill";
}

function dayLabel({ date }: Day): string {
  return `${WEEKDAYS[weekdayOf(date)]} ${Number(dateText(date).slice(8))}`;
}

function remarkOf(day: Day): string {
  const words: string[] = [];
  if (day.state !== "practice" && day.state !== "free") words.push(day.state);
  if (day.sessions.some((session) => session.short)) words.push("short");
  if (day.lesson) words.push("lesson");
  words.push(...day.bookings.filter((each) => each.kind !== "lesson").map((each) => each.name));
  return words.join(", ");
}

function aimOf({ term, player }: PlayerTerm, week: number): string | undefined {
  const own = term.weeks.filter(({ weeks }) => weeks?.includes(week) === true);
  return [...own.flatMap((each) => each.aims), ...player.aims, ...term.aims][0];
}

interface Gathered {
  readonly name: string;
  readonly items: (DayItem | undefined)[];
}

function sessionRows(days: readonly Day[]): WeekSheet["sessions"] {
  // Sessions in the order in which the week meets them.
  const sessions = new Map<string, Map<string, Gathered>>(
    days.flatMap((day) => day.sessions.map((each) => [each.session.name, new Map()] as const)),
  );
  const length = ({ sessions: all }: Day): number => all.reduce((sum, each) => sum + each.items.length, 0);
  // The fullest day gives the rows their order.
  for (const day of days.toSorted((a, b) => length(b) - length(a))) {
    const at = days.indexOf(day);
    for (const session of day.sessions) {
      const rows = sessions.get(session.session.name) ?? new Map<string, Gathered>();
      sessions.set(session.session.name, rows);
      // One that comes twice in a session has a line for each time.
      const seen = new Map<string, number>();
      for (const item of session.items) {
        const { name } = item.exercise;
        const nth = seen.get(name) ?? 0;
        seen.set(name, nth + 1);
        const row = rows.get(`${name} ${nth}`) ?? { name, items: days.map(() => undefined) };
        rows.set(`${name} ${nth}`, row);
        row.items[at] = item;
      }
    }
  }
  return [...sessions].map(([name, rows]) => ({ name, rows: [...rows.values()].map(rowOf) }));
}

function rowOf({ name, items }: Gathered): WeekRow {
  const played = items.filter((item) => item !== undefined);
  const details = [allAlike(played, tempoOf), allAlike(played, amountWords)];
  return {
    name,
    detail: details.filter((each) => each !== "").join(", "),
    dropWhenTired: played.some((item) => item.assignment.dropWhenTired),
    cells: items.map((item) => (item === undefined ? "" : cellOf(item))),
  };
}

/** What is said of all the items alike; empty where they differ. */
function allAlike(items: readonly DayItem[], say: (item: DayItem) => string): string {
  const said = new Set(items.map(say));
  const [only = ""] = said;
  return said.size === 1 ? only : "";
}

function tempoOf({ assignment, exercise, bpm, fastest }: DayItem): string {
  const beat = assignment.tempo?.beat ?? exercise.tempo?.beat;
  return beat === undefined || bpm === undefined ? "" : tempoWords(sheetTempo(beat, bpm, fastest));
}

function cellOf({ passes, exercise }: DayItem): string {
  const names = passes.map(({ placement: { combination, key } }) => {
    if (combination !== undefined) return combination.name === "0" ? "open" : combination.name;
    return key === undefined ? NO_KEY : noteSign({ ...key, octave: 4 });
  });
  const [first = NO_KEY] = names;
  const last = names.at(-1) ?? first;
  if (exercise.series !== undefined) return first === last ? first : `${first} to ${last}`;
  return names.length > 3 ? `${first} to ${last}` : list(names);
}
