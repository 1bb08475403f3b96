import type { Player } from "../plan/player";
import type { Settings } from "../plan/settings";
import type { Session } from "../plan/term";
import type { Day, DayItem, DaySession, PlayerTerm } from "./day";
import { dayTotals } from "./day-totals";
import { measureOf, upperSeconds } from "./measure";

/** A session as it last came, and with what lies in the upper register measured anew. */
interface Last {
  from: DaySession;
  to: DaySession;
}

/**
 * The days of a term as another player meets them whose upper register begins elsewhere, and who is alike in all
 * else that days depend on. Only what lies in the upper register is measured anew; all that the line does not
 * touch is the very same object. What is moved is written out and not spread: items, sessions and days that are all
 * made alike are read faster.
 */
export function withUpperLine(term: PlayerTerm, player: Player, settings: Settings): PlayerTerm {
  const measure = measureOf(settings, player);
  const moved = new Map<DayItem, DayItem>();
  const items = term.items.map((item) => {
    const upper = upperSeconds(item, measure);
    if (upper === item.upper) return item;
    const own = movedItem(item, upper);
    moved.set(item, own);
    return own;
  });
  const last = new Map<Session, Last>();
  const days = moved.size === 0 ? term.days : term.days.map((day) => movedDay(day, moved, last));
  const { weeks, troubles, unfinished, restarts, overlaps, strays } = term;
  return {
    term: term.term,
    player,
    days,
    items,
    weeks,
    troubles,
    unfinished,
    restarts,
    overlaps,
    strays,
  };
}

function movedItem(item: DayItem, upper: number): DayItem {
  return {
    assignment: item.assignment,
    exercise: item.exercise,
    profile: item.profile,
    passes: item.passes,
    wholeSeconds: item.wholeSeconds,
    bpm: item.bpm,
    fastest: item.fastest,
    restAfter: item.restAfter,
    clock: item.clock,
    playing: item.playing,
    upper,
    load: item.load,
  };
}

function movedDay(day: Day, moved: ReadonlyMap<DayItem, DayItem>, last: Map<Session, Last>): Day {
  let own: DaySession[] | undefined;
  for (let i = 0; i < day.sessions.length; i++) {
    const session = day.sessions[i]!;
    const to = movedSession(session, moved, last);
    if (to === session) continue;
    own ??= day.sessions.slice();
    own[i] = to;
  }
  if (own === undefined) return day;
  return {
    date: day.date,
    week: day.week,
    state: day.state,
    lesson: day.lesson,
    concert: day.concert,
    bookings: day.bookings,
    sessions: own,
    share: day.share,
    totals: dayTotals(own, day.bookings),
  };
}

/** Most sessions that days share come again the next time that the session comes. */
function movedSession(
  from: DaySession,
  moved: ReadonlyMap<DayItem, DayItem>,
  last: Map<Session, Last>,
): DaySession {
  const before = last.get(from.session);
  if (before?.from === from) return before.to;
  const to = movedAnew(from, moved);
  if (before === undefined) last.set(from.session, { from, to });
  else {
    before.from = from;
    before.to = to;
  }
  return to;
}

function movedAnew(session: DaySession, moved: ReadonlyMap<DayItem, DayItem>): DaySession {
  let items: DayItem[] | undefined;
  for (let i = 0; i < session.items.length; i++) {
    const item = moved.get(session.items[i]!);
    if (item === undefined) continue;
    items ??= session.items.slice();
    items[i] = item;
  }
  if (items === undefined) return session;
  let upper = 0;
  for (const item of items) upper += item.upper;
  const { stretchItem } = session;
  return {
    session: session.session,
    content: session.content,
    short: session.short,
    items,
    clock: session.clock,
    playing: session.playing,
    upper,
    load: session.load,
    stretch: session.stretch,
    stretchItem: stretchItem && (moved.get(stretchItem) ?? stretchItem),
  };
}
