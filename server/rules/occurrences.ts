import type { DayItem, PlayerTerm } from "../days/day";

/** One measured item and the days that share it. */
export interface Occurrence {
  readonly item: DayItem;
  readonly dates: number[];
}

/**
 * Every distinct item of a term with its days. Days that ask for the very same share one item, so a rule about
 * items looks at each once.
 */
export function occurrencesOf(term: PlayerTerm): readonly Occurrence[] {
  const byItem = new Map<DayItem, Occurrence>();
  for (const day of term.days) {
    for (const session of day.sessions) {
      for (const item of session.items) {
        const known = byItem.get(item);
        if (known === undefined) byItem.set(item, { item, dates: [day.date] });
        else known.dates.push(day.date);
      }
    }
  }
  return [...byItem.values()];
}
