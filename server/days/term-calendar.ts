import { Memory } from "../../grammar/memory";
import { type Booking, inDays, type Session, type Term } from "../plan/term";
import { areTheFirst } from "./are-the-first";
import type { PlayerTerm } from "./day";
import { isPracticeDay, type TaughtWeeks, taughtWeeks } from "./taught-weeks";

/** A session as it falls on a day: where its week stands among those of its block. */
export interface PlannedSession {
  readonly session: Session;
  /** The week within the block, from 0. */
  readonly index: number;
  /** How many taught weeks the block has. */
  readonly weeks: number;
}

/** What a term says of one date, whoever practises. */
export interface CalendarDay {
  readonly date: number;
  /** Its taught week; undefined in a week that has none. */
  readonly week: number | undefined;
  readonly practice: boolean;
  readonly closed: boolean;
  readonly light: boolean;
  readonly short: boolean;
  /** The share that easing before a concert leaves; 1 on other days. */
  readonly ease: number;
  /** Those that are not called off. */
  readonly bookings: readonly Booking[];
  readonly lesson: boolean;
  readonly concert: Booking | undefined;
  readonly sessions: readonly PlannedSession[];
  /** Sessions of one name planned for the same day. */
  readonly overlaps: PlayerTerm["overlaps"];
}

/** The dates of a term, without any player: all its players share it. */
export interface TermCalendar {
  readonly weeks: TaughtWeeks;
  readonly days: readonly CalendarDay[];
  /** Sessions asked for on days on which nobody practises. */
  readonly strays: PlayerTerm["strays"];
}

const calendars = new Memory<Term, TermCalendar>();

/** The calendar of a term; kept with the term, so that it is worked out once. */
export function termCalendar(term: Term): TermCalendar {
  let calendar = calendars.get(term);
  if (calendar === undefined) {
    calendar = worked(term);
    calendars.set(term, calendar);
  }
  return calendar;
}

const NO_BOOKINGS: readonly Booking[] = [];
const NO_SESSIONS: readonly PlannedSession[] = [];
const NO_OVERLAPS: PlayerTerm["overlaps"] = [];

function worked(term: Term): TermCalendar {
  const weeks = taughtWeeks(term);
  const sessions = sessionsByWeek(term, weeks.count).map((all) => new WeekSessions(all));
  const concerts = concertDays(term);
  const days: CalendarDay[] = [];
  for (let date = term.dates.from; date <= term.dates.to; date++) {
    const week = weeks.weekOf(date);
    const practice = isPracticeDay(term, date);
    let closed = false;
    let light = false;
    let noLesson = false;
    for (const closure of term.closures) {
      if (!within(closure, date)) continue;
      if (closure.how === "closed") closed = true;
      else if (closure.how === "light") light = true;
      else noLesson = true;
    }
    const bookings = closed ? NO_BOOKINGS : bookingsOn(term, date, noLesson);
    const planned = week === undefined || !practice ? NO_SESSIONS : sessions[week]!.on(date);
    days.push({
      date,
      week,
      practice,
      closed,
      light,
      short: isShort(term, date),
      ease: isEased(term, concerts, date) ? term.ease!.share : 1,
      bookings,
      lesson: firstOf("lesson", bookings) !== undefined,
      concert: firstOf("concert", bookings),
      sessions: planned,
      overlaps: planned.length < 2 ? NO_OVERLAPS : overlapsOf(planned, date),
    });
  }
  return { weeks, days, strays: straysOf(term) };
}

/** The sessions of each taught week, from week 1, whatever their days. */
function sessionsByWeek(term: Term, count: number): readonly (readonly PlannedSession[])[] {
  const byWeek: PlannedSession[][] = Array.from({ length: count + 1 }, () => []);
  for (const block of term.weeks) {
    const own =
      block.weeks?.filter((week) => week <= count) ?? Array.from({ length: count }, (_, i) => i + 1);
    for (const [index, week] of own.entries()) {
      for (const session of block.sessions) byWeek[week]?.push({ session, index, weeks: own.length });
    }
  }
  return byWeek;
}

/** What comes on one day of the sessions of its week; days of a week that ask for the same share one list. */
class WeekSessions {
  private readonly lists: (readonly PlannedSession[])[] = [];
  /** Those of the day at hand; what lies beyond their number is left from others. */
  private readonly planned: PlannedSession[] = [];

  constructor(readonly all: readonly PlannedSession[]) {}

  on(date: number): readonly PlannedSession[] {
    const { all, lists, planned } = this;
    let count = 0;
    for (const each of all) if (inDays(each.session.days, date)) planned[count++] = each;
    if (count === 0) return NO_SESSIONS;
    for (const list of lists) if (areTheFirst(list, planned, count)) return list;
    const own = planned.slice(0, count);
    lists.push(own);
    return own;
  }
}

function isShort(term: Term, date: number): boolean {
  for (const days of term.shortDays) if (inDays(days, date)) return true;
  return false;
}

function firstOf(kind: Booking["kind"], bookings: readonly Booking[]): Booking | undefined {
  for (const booking of bookings) if (booking.kind === kind) return booking;
  return undefined;
}

function overlapsOf(planned: readonly PlannedSession[], date: number): PlayerTerm["overlaps"] {
  let overlaps: PlayerTerm["overlaps"][number][] | undefined;
  for (let i = 1; i < planned.length; i++) {
    const { name, place } = planned[i]!.session;
    let first = 0;
    while (planned[first]!.session.name !== name) first++;
    if (first === i) continue;
    overlaps ??= [];
    overlaps.push({ date, first: planned[first]!.session.place, second: place });
  }
  return overlaps ?? NO_OVERLAPS;
}

function bookingsOn(term: Term, date: number, noLesson: boolean): readonly Booking[] {
  let bookings: Booking[] | undefined;
  for (const booking of term.bookings) {
    if (!isBooked(term, booking, date) || (noLesson && booking.kind === "lesson")) continue;
    if (bookings === undefined) bookings = [booking];
    else bookings.push(booking);
  }
  return bookings ?? NO_BOOKINGS;
}

/** Whether a booking falls on a day; "every day" is every day of practice. */
function isBooked(term: Term, booking: Booking, date: number): boolean {
  if (booking.within !== undefined && !within(booking.within, date)) return false;
  return inDays(booking.days, date) && (booking.days.kind !== "every day" || isPracticeDay(term, date));
}

function concertDays(term: Term): readonly number[] {
  const dates: number[] = [];
  for (const booking of term.bookings) {
    if (booking.kind !== "concert") continue;
    if (booking.days.kind === "dates") {
      for (const { date } of booking.days.dates) {
        if (within(term.dates, date) && isBooked(term, booking, date)) dates.push(date);
      }
      continue;
    }
    for (let date = term.dates.from; date <= term.dates.to; date++) {
      if (isBooked(term, booking, date)) dates.push(date);
    }
  }
  return dates;
}

function isEased({ ease }: Term, concerts: readonly number[], date: number): boolean {
  if (ease === undefined) return false;
  for (const concert of concerts) if (date < concert && date >= concert - ease.days) return true;
  return false;
}

function straysOf(term: Term): PlayerTerm["strays"] {
  const strays: PlayerTerm["strays"][number][] = [];
  for (const block of term.weeks) {
    for (const session of block.sessions) {
      if (session.days.kind !== "dates") continue;
      for (const { date, place } of session.days.dates) {
        if (!within(term.dates, date)) strays.push({ date, place, why: "outside" });
        else if (!isPracticeDay(term, date)) {
          const closed = term.closures.some((each) => each.how === "closed" && within(each, date));
          strays.push({ date, place, why: closed ? "closed" : "no practice" });
        }
      }
    }
  }
  return strays;
}

function within(span: { readonly from: number; readonly to: number }, date: number): boolean {
  return date >= span.from && date <= span.to;
}
