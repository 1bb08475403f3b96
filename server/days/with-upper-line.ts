import type { Player } from "../plan/player";
import type { Settings } from "../plan/settings";
import type { Day, DayItem, DaySession, PlayerTerm } from "./day";
import { dayTotals } from "./day-totals";
import { measureOf, upperSeconds } from "./measure";

/**
 * The days of a term as another player meets them whose upper register begins elsewhere, and who is alike in all
 * else that days depend on. Only what lies in the upper register is measured anew; all that the line does not
 * touch is the very same object.
 */
export function withUpperLine(term: PlayerTerm, player: Player, settings: Settings): PlayerTerm {
  const measure = measureOf(settings, player);
  const moved = new Map<DayItem, DayItem>();
  const items = term.items.map((item) => {
    const upper = upperSeconds(item, measure);
    if (upper === item.upper) return item;
    const own = { ...item, upper };
    moved.set(item, own);
    return own;
  });
  const sessions = new Map<DaySession, DaySession>();
  const days = term.days.map((day) => {
    if (!day.sessions.some((session) => session.items.some((item) => moved.has(item)))) return day;
    const own = day.sessions.map((session) => movedSession(session, moved, sessions));
    return { ...day, sessions: own, totals: dayTotals(own, day.bookings) } satisfies Day;
  });
  return { ...term, player, items, days };
}

function movedSession(
  session: DaySession,
  moved: ReadonlyMap<DayItem, DayItem>,
  known: Map<DaySession, DaySession>,
): DaySession {
  const before = known.get(session);
  if (before !== undefined) return before;
  const items = session.items.map((item) => moved.get(item) ?? item);
  let upper = 0;
  for (const item of items) upper += item.upper;
  const { stretchItem } = session;
  const own = {
    ...session,
    items,
    upper,
    stretchItem: stretchItem && (moved.get(stretchItem) ?? stretchItem),
  };
  known.set(session, own);
  return own;
}
