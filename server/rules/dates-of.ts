import type { DayItem, PlayerTerm } from "../days/day";

/**
 * Tells the days that share an item. Days that ask for the very same share one, so a rule about items looks at
 * each once; few have anything to say, and the days are gathered when the first of them asks.
 */
export function datesOf(term: PlayerTerm): (item: DayItem) => readonly number[] {
  let known: ReadonlyMap<DayItem, readonly number[]> | undefined;
  return (item) => {
    known ??= datesByItem(term);
    return known.get(item) ?? [];
  };
}

function datesByItem(term: PlayerTerm): ReadonlyMap<DayItem, readonly number[]> {
  const dates = new Map<DayItem, number[]>();
  for (const day of term.days) {
    for (const session of day.sessions) {
      for (const item of session.items) {
        const before = dates.get(item);
        if (before === undefined) dates.set(item, [day.date]);
        else before.push(day.date);
      }
    }
  }
  return dates;
}
