import { type CalendarDay, termCalendar } from "../days/term-calendar";
import { emptyPacketWords, NO_TERM } from "../output/print-words";
import { longDate } from "../pages/sheet-words";
import { dateText, mondayOf, parseDate } from "../plan/date";
import { playersOf } from "../plan/plan";
import type { Term } from "../plan/term";
import type {
  PrintChoicesParams,
  PrintChoicesResult,
  PrintDate,
  PrintScope,
} from "../protocol/print-requests";
import type { Checked, CheckedFile } from "../workspace/check-sources";
import { fileOf, offsetOf } from "./lines-of";
import { termAt } from "./term-at";
import { termSubject } from "./term-subject";
import { chainAt, pieceAt } from "./tree-at";

/** What can be printed from a place in a plan, and what is likeliest meant. */
export function printChoices(
  checked: Checked,
  path: string,
  { what, position, today }: Omit<PrintChoicesParams, "uri">,
): PrintChoicesResult {
  const file = fileOf(checked, path);
  if (file === undefined) return { trouble: NO_TERM };
  const offset = offsetOf(file, position);
  const term = termAt(file, offset);
  if (what === "packet") {
    const scopes = [...(term === undefined ? [] : [packetScope(file, term)]), ...bookScopes(file)];
    return scopes.length === 0 ? { trouble: emptyPacketWords(false) } : { scopes };
  }
  const near = parseDate(today) ?? 0;
  const studio = checked.files.flatMap((each) =>
    each.plan.own.terms.map((one) => ({ file: each, term: one })),
  );
  const all = sheetScope("studio", "", studio, what, near);
  const scopes =
    term === undefined
      ? [all]
      : [sheetScope("term", term.name, [{ file, term }], what, askedDate(file, term, offset, near)), all];
  const some = scopes.filter(({ dates }) => dates.length > 0);
  return some.length === 0 ? { trouble: NO_TERM } : { scopes: some };
}

function packetScope(file: CheckedFile, term: Term): PrintScope {
  return { of: "term", title: term.name, players: playerNames(file, term), dates: [], likely: 0 };
}

function bookScopes({ plan }: CheckedFile): readonly PrintScope[] {
  if (plan.exercises.size === 0) return [];
  return [{ of: "book", title: plan.settings.name ?? "", players: [], dates: [], likely: 0 }];
}

interface FileTerm {
  readonly file: CheckedFile;
  readonly term: Term;
}

function sheetScope(
  of: "term" | "studio",
  title: string,
  terms: readonly FileTerm[],
  what: "day" | "week",
  near: number,
): PrintScope {
  const players = new Set(terms.flatMap(({ file, term }) => playerNames(file, term)));
  // Only the term's calendar is asked, and no player's: that would take long for a whole studio.
  const weeks = new Map<number, number | undefined>();
  for (const { term } of terms) {
    for (const day of termCalendar(term).days) {
      if (!isPlanned(day)) continue;
      weeks.set(what === "day" ? day.date : mondayOf(day.date), of === "term" ? day.week : undefined);
    }
  }
  const dates = [...weeks.keys()].sort((a, b) => a - b);
  const wanted = what === "day" ? near : mondayOf(near);
  const next = dates.findIndex((date) => date >= wanted);
  return {
    of,
    title,
    players: [...players],
    dates: dates.map((date) => printDate(date, weeks.get(date), what)),
    // After the last one, the last one.
    likely: next < 0 ? Math.max(0, dates.length - 1) : next,
  };
}

/** Whether anything is asked of anybody that day, as far as the calendar tells. */
function isPlanned({ week, sessions }: CalendarDay): boolean {
  if (week === undefined) return false;
  return sessions.some(({ session }) => session.routine !== undefined || session.content.items.length > 0);
}

function printDate(date: number, week: number | undefined, what: "day" | "week"): PrintDate {
  return {
    date: dateText(date),
    label: what === "day" ? longDate(date) : `Week of ${longDate(date)}`,
    detail: week === undefined ? "" : `Week ${week}`,
  };
}

/**
 * The day that the text around the cursor speaks of: the next from today where it is for several, or else the first of
 * them. Today where it speaks of none.
 */
function askedDate(file: CheckedFile, term: Term, offset: number, today: number): number {
  const at = pieceAt(file.tree, offset);
  if (at === undefined || at.piece !== term.place.piece) return today;
  const dates = datesAsked(term, termSubject(term, chainAt(at.piece, offset - at.start)));
  return dates?.find((date) => date >= today) ?? dates?.[0] ?? today;
}

function datesAsked(term: Term, subject: ReturnType<typeof termSubject>): readonly number[] | undefined {
  const { days } = termCalendar(term);
  const daysWith = (is: (day: CalendarDay) => boolean): readonly number[] =>
    days.filter((day) => isPlanned(day) && is(day)).map(({ date }) => date);
  switch (subject?.kind) {
    case undefined:
      return undefined;
    case "date":
      return [subject.date];
    case "session":
      return daysWith((day) => day.sessions.some(({ session }) => session === subject.session));
    case "booking":
      return daysWith((day) => day.bookings.includes(subject.booking));
    case "closure":
      return undefined;
    case "weeks":
      return daysWith((day) => day.sessions.some(({ session }) => subject.weeks.sessions.includes(session)));
  }
}

function playerNames(file: CheckedFile, term: Term): readonly string[] {
  return playersOf(file.plan, term).map(({ name }) => name);
}
