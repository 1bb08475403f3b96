import type { Day, DayItem, DaySession, PlayerTerm } from "../days/day";
import { placementName } from "../days/placement";
import { valueName } from "../music/rhythm";
import { dateText, mondayOf, weekdayOf } from "../plan/date";
import type { Booking } from "../plan/term";
import { counted, plainNumber } from "./numbers";

/** Something with a day, and perhaps an hour, in a player's calendar. */
export interface CalendarEvent {
  /**
   * What it is, whenever it comes: the same thing in a later version of the plan has the same identity, so that
   * a calendar that reads the file again moves it and does not double it. See `sessionIdentity` and
   * `bookingIdentity`.
   */
  readonly identity: string;
  readonly date: number;
  /** Minutes after midnight where the hour is known; otherwise it is the day's. */
  readonly time: number | undefined;
  /** Whole minutes. */
  readonly minutes: number;
  readonly title: string;
  /** A line each; empty for a booking that asks nothing. */
  readonly lines: readonly string[];
  readonly kind: "practice" | Booking["kind"];
}

/** Hours for sessions and bookings by their names; `""` stands for every session that has none of its own. */
export type Hours = ReadonlyMap<string, number>;

/** Everything a player's term puts into a calendar, in the order of time. */
export function calendarEvents(term: PlayerTerm, hours: Hours): readonly CalendarEvent[] {
  return term.days.flatMap((day) => [
    ...day.sessions.map((session) => sessionEvent(term, day, session, hours)),
    ...day.bookings.map((booking) => bookingEvent(term, day, booking, hours)),
  ]);
}

function sessionEvent(term: PlayerTerm, day: Day, done: DaySession, hours: Hours): CalendarEvent {
  const { session, content, items, short } = done;
  const practice = Math.max(1, Math.ceil(done.clock / 60));
  const minutes = content.minutes === undefined ? practice : Math.ceil(content.minutes / 60);
  return {
    identity: sessionIdentity(term, day, done),
    date: day.date,
    time: hours.get(session.name) ?? hours.get(""),
    minutes,
    title: `${session.name}, ${minutes} min${short ? " (short)" : ""}`,
    lines: [
      ...items.map(itemLine),
      ...content.aims.map((aim) => `aim: ${aim}`),
      ...term.term.aims.map((aim) => `aim: ${aim}`),
      `${counted(practice, "minute")} with rests`,
    ],
    kind: "practice",
  };
}

/** `Mill wheel: D major, quarter = 92, 3 times`. */
function itemLine({ assignment, exercise, passes, bpm, fastest }: DayItem): string {
  const times = passes.reduce((sum, pass) => sum + pass.times, 0);
  const keys = [...new Set(passes.map(({ placement }) => placementName(placement)))].filter(
    (key) => key !== "",
  );
  const beat = assignment.tempo?.beat ?? exercise.tempo?.beat;
  const faster = fastest === undefined || fastest === bpm ? "" : ` to ${plainNumber(fastest)}`;
  const words = [
    ...(keys.length === 0 ? [] : [keys.join(", ")]),
    ...(bpm === undefined || beat === undefined ? [] : [`${valueName(beat)} = ${plainNumber(bpm)}${faster}`]),
    times === 1 ? "once" : times === 2 ? "twice" : `${times} times`,
    ...(assignment.dropWhenTired ? ["drop when tired"] : []),
    ...assignment.aims,
  ];
  return `${exercise.name}: ${words.join(", ")}`;
}

function bookingEvent(term: PlayerTerm, day: Day, booking: Booking, hours: Hours): CalendarEvent {
  const { clock } = booking.asks;
  return {
    identity: bookingIdentity(term, day, booking),
    date: day.date,
    time: hours.get(booking.name),
    minutes: Math.max(1, Math.ceil(clock / 60)),
    title: booking.name,
    lines: [],
    kind: booking.kind,
  };
}

/**
 * A session is known by the year in which the term begins, the term, the player, the taught week, the weekday and
 * the session's name; where two of one name share a day, by their order. So it keeps its identity when its work,
 * its minutes or its hour change, and when the whole term is moved or a closure moves the weeks after it.
 */
function sessionIdentity(term: PlayerTerm, day: Day, done: DaySession): string {
  const alike = day.sessions.filter(({ session }) => session.name === done.session.name);
  return identity(term, "session", [day.week, weekdayOf(day.date), done.session.name, alike.indexOf(done)]);
}

/**
 * What is booked on a single day is known by its name, and where one name comes several times, by its place among
 * them: a concert put off is the same concert. What comes every week is known by its calendar week in the term.
 */
function bookingIdentity(term: PlayerTerm, day: Day, booking: Booking): string {
  const { days, name, kind } = booking;
  if (days.kind !== "dates") {
    const week = (mondayOf(day.date) - mondayOf(term.term.dates.from)) / 7;
    return identity(term, kind, [name, week, weekdayOf(day.date)]);
  }
  const alike = term.term.bookings
    .filter((each) => each.name === name && each.kind === kind)
    .flatMap((each) => (each.days.kind === "dates" ? each.days.dates : []))
    .map((each) => each.date)
    .sort((a, b) => a - b);
  return identity(term, kind, [name, alike.indexOf(day.date)]);
}

function identity({ term, player }: PlayerTerm, kind: string, parts: readonly unknown[]): string {
  const year = dateText(term.dates.from).slice(0, 4);
  return JSON.stringify([year, term.name, player.name, kind, ...parts]);
}
