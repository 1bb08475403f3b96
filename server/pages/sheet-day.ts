/** One player's day as it lies on the music stand: plain data, of the same figures as the totals. */
import { Memory } from "../../grammar/memory";
import { printAssignmentHead } from "../../grammar/print";
import type { Day, DayItem, DaySession, PlayerTerm } from "../days/day";
import { placementName } from "../days/placement";
import { mondayOf } from "../plan/date";
import type { Settings } from "../plan/settings";
import type { Assignment, Goal, PlannedItem, SessionContent } from "../plan/term";
import { minutes } from "../rules/words";
import { type EitherLine, paired } from "./sheet-columns";
import type { SheetFrame } from "./sheet-measure";
import { type Look, type Picture, picturesOf } from "./sheet-picture";
import {
  amountWords,
  dayAndMonth,
  longDate,
  restWords,
  type SheetTempo,
  sheetTempo,
  whereWords,
} from "./sheet-words";

/** What is done in one line of a session. */
export type SheetLine = { readonly kind: "pause"; readonly text: string } | SheetItem;

export interface SheetItem {
  readonly kind: "item";
  readonly name: string;
  readonly where: string;
  readonly amount: string;
  /** The note value that is counted and its number; undefined where nothing is counted. */
  readonly tempo: SheetTempo | undefined;
  readonly rest: string;
  /** Clock time of the line, its rests included but the session's last: `1:40`. */
  readonly clock: string;
  readonly aim: string;
  /** What is played where there are no notes: a page of a printed book, an activity. */
  readonly without: string;
  /** Whether the short version of the session holds it. */
  readonly inShort: boolean;
  readonly dropWhenTired: boolean;
  /** The music in each key that is written out, and what the key is called where there are several. */
  readonly music: readonly { readonly caption: string; readonly picture: Picture }[];
  /** Keys that are played but not written out. */
  readonly further: string;
  /** The width of the column it stands in beside the line before or after it, in millimetres; else undefined. */
  readonly column: number | undefined;
}

export interface SheetSession {
  readonly name: string;
  /** Whether today is a day of its short version. */
  readonly short: boolean;
  readonly clock: string;
  /** The most it may take; empty where nothing is said. */
  readonly allowed: string;
  readonly aims: readonly string[];
  readonly lines: readonly SheetLine[];
  /** The session's short version, a line for each thing, where there is one and today is not its day. */
  readonly shortVersion: readonly string[];
  readonly shortAllowed: string;
}

export interface SheetTotals {
  readonly clock: string;
  readonly playing: string;
  readonly upper: string;
  readonly stretch: string;
  readonly load: string;
}

export interface DaySheet {
  readonly player: string;
  readonly term: string;
  readonly date: number;
  readonly day: string;
  /** `Week 3 of 10`; empty in a week without a number. */
  readonly week: string;
  readonly lesson: string;
  readonly aim: string;
  /** Why the day is unlike others: light practice, eased amounts, a concert. */
  readonly remarks: readonly string[];
  readonly sessions: readonly SheetSession[];
  /** The next concert and what else is to be reached, soonest first. */
  readonly ahead: readonly string[];
  readonly totals: SheetTotals;
  /** What the totals hold beside practice, so that nobody wonders; empty where they hold nothing else. */
  readonly counted: string;
}

/**
 * Aims on a sheet: all; those that the term gives its sessions and lines, and not those of the exercises, which stand in
 * the packet too; or the one of the day alone, which stands at the top in any case.
 */
export type Aims = "all" | "term" | "day";

export interface DaySheetStyle extends Look {
  /** In how many keys a line that travels through several is written out. */
  readonly keysWritten: number;
  /** Which aims stand on the sheet; all where nothing is said. */
  readonly aims?: Aims;
  /** How many lines show their music by its opening, those whose music is longest. */
  readonly openings?: number;
  /** The page whose width may be parted into two columns where that is lower; undefined for none. */
  readonly columns?: SheetFrame | undefined;
}

/** A day with the term it lies in. */
export interface TermDay {
  readonly term: PlayerTerm;
  readonly day: Day;
  readonly settings: Settings;
}

/** Whether there is anything to print for a day. */
export function hasSheet(day: Day): boolean {
  return day.sessions.some((session) => session.items.length > 0);
}

/** The sheet of a day. */
export function daySheet({ term, day, settings }: TermDay, style: DaySheetStyle): DaySheet {
  const aim = aimOf(term, day);
  const plain = { term, settings, style, opened: new Set<DayItem>() };
  const context = { ...plain, opened: longestItems(day, style.openings ?? 0, plain) };
  return {
    player: term.player.name,
    term: term.term.name,
    date: day.date,
    day: longDate(day.date),
    week: day.week === undefined ? "" : `Week ${day.week} of ${term.weeks}`,
    lesson: lessonWords(term, day),
    aim: aim ?? "",
    remarks: remarksOf(day),
    sessions: day.sessions.map((session) => sessionSheet(session, context, aim)),
    ahead: ahead(term, day.date),
    totals: totalsWords(day.totals),
    counted: countedWords(day),
  };
}

/** The clock is of practice alone; everything else is asked of the same lips. */
function countedWords({ bookings }: Day): string {
  if (bookings.length === 0) return "";
  const names = new Set(bookings.map((each) => (each.kind === "lesson" ? "the lesson" : each.name)));
  return `all but the clock with ${[...names].join(" and ")}`;
}

/** Figures of a day or a week as the sheets say them. */
export function totalsWords(totals: Day["totals"]): SheetTotals {
  return {
    clock: minutes(totals.clock),
    playing: minutes(totals.playing),
    upper: minutes(totals.upper),
    stretch: minutes(totals.stretch),
    load: String(Math.round(totals.load)),
  };
}

/** One aim: the week's own, else the player's, the term's, that of the day's first session that has one. */
function aimOf({ term, player }: PlayerTerm, { week, sessions }: Day): string | undefined {
  const ofWeeks = term.weeks.filter(({ weeks }) => week !== undefined && weeks?.includes(week) === true);
  return [
    ...ofWeeks.flatMap((each) => each.aims),
    ...player.aims,
    ...term.aims,
    ...sessions.flatMap((session) => session.content.aims),
  ][0];
}

function lessonWords(term: PlayerTerm, day: Day): string {
  if (day.lesson) return "Lesson today";
  const next = term.days.find((each) => each.date > day.date && each.lesson);
  return next === undefined ? "" : `Next lesson: ${dayAndMonth(next.date)}`;
}

function remarksOf(day: Day): readonly string[] {
  const remarks: string[] = [];
  if (day.state === "light") remarks.push("Light practice today");
  else if (day.share < 1) remarks.push("Less than usual today, on purpose");
  for (const booking of day.bookings) {
    if (booking.kind === "lesson") continue;
    const { clock } = booking.asks;
    const length = clock > 0 ? `, ${Math.round(clock / 60)} min` : "";
    remarks.push(`${booking.kind === "concert" ? "Concert today: " : ""}${booking.name}${length}`);
  }
  return remarks;
}

/** An item written out in one of its keys, and what that is called. */
interface Written {
  readonly where: string;
  readonly picture: ((look: Look) => Picture) | undefined;
}

/** What all lines of a sheet are made with. */
interface Context {
  readonly term: PlayerTerm;
  readonly settings: Settings;
  readonly style: DaySheetStyle;
  /** Items whose music is shown by its opening. */
  readonly opened: ReadonlySet<DayItem>;
}

/** So many items of a day, those with the longest music. */
function longestItems(day: Day, most: number, context: Context): ReadonlySet<DayItem> {
  if (most === 0) return new Set();
  const lengths = day.sessions
    .flatMap(({ items }) => items)
    .map((item) => ({
      item,
      length: Math.max(
        0,
        ...musicOf(item, context, context.style).music.map(({ picture }) => picture.length),
      ),
    }));
  // Of equal length the first on the page goes first, since sorting keeps the order.
  lengths.sort((a, b) => b.length - a.length);
  return new Set(lengths.slice(0, most).map(({ item }) => item));
}

function sessionSheet(session: DaySession, context: Context, said: string | undefined): SheetSession {
  const { style } = context;
  const { content } = session;
  const short = session.short ? undefined : content.short;
  const inShort = new Set(
    short?.items.flatMap((planned) => ("exercise" in planned ? [planned.exercise] : [])) ?? [],
  );
  const lines: EitherLine[] = [];
  let next = 0;
  // Pauses, and what a change has not left out.
  const counts = (planned: PlannedItem): boolean =>
    !("exercise" in planned) || session.items.some((item) => item.assignment === planned);
  for (const [index, planned] of content.items.entries()) {
    if (!("exercise" in planned)) {
      lines.push({ full: { kind: "pause", text: `Horn down ${lengthWords(planned.pause)}` } });
      continue;
    }
    const item = session.items[next];
    // What a change leaves out has no item.
    if (item === undefined || item.assignment !== planned) continue;
    next++;
    const last = !content.items.slice(index + 1).some(counts);
    const full = itemLine(item, last, inShort, context);
    const at = (column: number): SheetItem => ({
      ...full,
      column,
      ...musicOf(item, context, { ...style, width: column, beside: undefined }),
    });
    lines.push({ full, at });
  }
  return {
    name: session.session.name,
    short: session.short,
    clock: minutes(session.clock),
    allowed: content.minutes === undefined ? "" : lengthWords(content.minutes),
    aims: style.aims === "day" ? [] : content.aims.filter((aim) => aim !== said),
    lines: paired(lines, style.columns),
    shortVersion: short === undefined ? [] : shortLines(short),
    shortAllowed: short?.minutes === undefined ? "" : lengthWords(short.minutes),
  };
}

/** A length of time that was typed: `10 min`, `45 s`, `1 min 30 s`. */
function lengthWords(seconds: number): string {
  const whole = Math.round(seconds);
  const [min, s] = [Math.floor(whole / 60), whole % 60];
  if (min === 0) return `${s} s`;
  return s === 0 ? `${min} min` : `${min} min ${s} s`;
}

function shortLines({ items }: SessionContent): readonly string[] {
  return items.map((planned: PlannedItem) =>
    "exercise" in planned
      ? printAssignmentHead(planned.tree)
          .replace(/^"([^"]*)"/, "$1")
          .replace(/\s+/g, " ")
      : `horn down ${lengthWords(planned.pause)}`,
  );
}

function itemLine(item: DayItem, last: boolean, inShort: ReadonlySet<string>, context: Context): SheetItem {
  const { settings, style } = context;
  const { assignment, exercise, bpm, fastest } = item;
  const beat = assignment.tempo?.beat ?? exercise.tempo?.beat;
  const aims = [
    ...(style.aims === "day" ? [] : assignment.aims),
    ...((style.aims ?? "all") === "all" ? exercise.aims : []),
  ];
  const { music, further } = musicOf(item, context, style);
  return {
    kind: "item",
    name: exercise.name,
    where: exercise.series === undefined ? keysWords(item, music.length) : seriesWords(item),
    amount: amountWords(item),
    tempo: beat === undefined || bpm === undefined ? undefined : sheetTempo(beat, bpm, fastest),
    // After the session's last note nobody counts the rest.
    rest: last ? "" : restWords(item.restAfter, settings),
    clock: minutes(last && item.passes.length > 0 ? item.clock - item.restAfter : item.clock),
    aim: aims[0] ?? "",
    without: withoutNotes(item),
    inShort: inShort.has(assignment.exercise),
    dropWhenTired: assignment.dropWhenTired,
    music,
    further,
    column: undefined,
  };
}

/** The keys of a day. Where the first of several is written out alone, the others follow it in words. */
function keysWords({ passes }: DayItem, written: number): string {
  if (written !== 1 || passes.length < 2) return whereWords(passes);
  return `${whereWords(passes.slice(0, 1))}, then ${whereWords(passes.slice(1))}`;
}

function seriesWords({ passes }: DayItem): string {
  const first = passes[0] === undefined ? "" : placementName(passes[0].placement);
  const last = passes.at(-1);
  if (passes.length < 2 || last === undefined) return first;
  return `from ${first} to ${placementName(last.placement)}`;
}

function withoutNotes({ exercise: { content } }: DayItem): string {
  switch (content.kind) {
    case "notes":
      return "";
    case "activity":
      return content.activity;
    case "printed":
      return printedWords(content);
  }
}

/** Where a printed piece is found: `“Quayside studies”, page 12, bars 1 to 24`. */
export function printedWords(content: {
  readonly title: string;
  readonly page: number | undefined;
  readonly bars: { readonly from: number; readonly to: number } | undefined;
}): string {
  const parts = [`“${content.title}”`];
  if (content.page !== undefined) parts.push(`page ${content.page}`);
  const { bars } = content;
  if (bars !== undefined)
    parts.push(bars.from === bars.to ? `bar ${bars.from}` : `bars ${bars.from} to ${bars.to}`);
  return parts.join(", ");
}

function musicOf(item: DayItem, context: Context, look: DaySheetStyle): Pick<SheetItem, "music" | "further"> {
  const { passes, exercise } = item;
  const most = exercise.series === undefined ? Math.max(1, look.keysWritten) : 1;
  const written = writtenOf(item, Math.min(most, passes.length), context);
  const opening = context.opened.has(item);
  const music = written.flatMap(({ where, picture }) =>
    picture === undefined
      ? []
      : [{ caption: written.length > 1 ? where : "", picture: picture({ ...look, opening }) }],
  );
  // Where one key is written out, the line itself says which others follow.
  const left = exercise.series !== undefined || music.length < 2 ? [] : passes.slice(written.length);
  return { music, further: left.length === 0 ? "" : whereWords(left) };
}

/** What was written out of items, so that it is done once for all looks that are tried. */
const WRITTEN = new Memory<DayItem, Written[]>();

/** An item in the first so many of its keys. */
function writtenOf(item: DayItem, keys: number, { term: { player }, settings }: Context): readonly Written[] {
  const { assignment, exercise, passes, bpm } = item;
  const beat = assignment.tempo?.beat ?? exercise.tempo?.beat;
  const written = WRITTEN.get(item) ?? [];
  WRITTEN.set(item, written);
  for (const { placement } of passes.slice(written.length, keys)) {
    const picture = picturesOf({
      exercise,
      instrument: player.instrument,
      settings,
      placement,
      tempo: beat === undefined || bpm === undefined ? undefined : { beat, bpm },
      articulation: assignment.articulation,
      dynamic: assignment.dynamic,
      cells: exercise.series === undefined ? undefined : passes.length,
    });
    written.push({ where: placementName(placement), picture });
  }
  return written.slice(0, keys);
}

/** Events to come as a player counts them, at most so many. */
const MOST_AHEAD = 3;

/** Concerts and goals after (or on) a day, soonest first; goals without a date last. */
export function ahead(term: PlayerTerm, date: number): readonly string[] {
  const found: { readonly date: number; readonly text: string }[] = [];
  for (const day of term.days) {
    if (day.date < date || day.concert === undefined) continue;
    found.push({ date: day.date, text: `${day.concert.name}, ${dayAndMonth(day.date)}` });
  }
  for (const goal of goalsOf(term)) {
    const by = dueDate(term, goal);
    if (by === undefined || by < date) continue;
    // A goal that is a concert by name is said once.
    if (found.some((each) => each.text.startsWith(goal.text) && each.date === by)) continue;
    const when = goal.date === undefined ? `by the end of week ${goal.week}` : `by ${dayAndMonth(by)}`;
    found.push({ date: by, text: `${goal.text}, ${when}` });
  }
  found.sort((a, b) => a.date - b.date);
  const seen = new Set<string>();
  const soonest = found.filter(({ text }) => !seen.has(text) && seen.add(text)).slice(0, MOST_AHEAD);
  return soonest.map((each) => `${each.text}${countdown(each.date - date)}`);
}

function goalsOf({ term, items }: PlayerTerm): readonly Goal[] {
  const assignments = new Set<Assignment>(items.map((item) => item.assignment));
  return [...term.goals, ...[...assignments].flatMap((each) => each.goals)];
}

function dueDate(term: PlayerTerm, { date, week }: Goal): number | undefined {
  if (date !== undefined) return date;
  if (week === undefined) return undefined;
  const day = term.days.find((each) => each.week === week);
  return day === undefined ? undefined : mondayOf(day.date) + 6;
}

function countdown(days: number): string {
  if (days === 0) return " (today)";
  if (days === 1) return " (tomorrow)";
  if (days < 14) return ` (in ${days} days)`;
  return ` (in ${Math.round(days / 7)} weeks)`;
}
