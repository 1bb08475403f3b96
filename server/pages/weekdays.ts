import type { PlayerTerm } from "../days/day";
import { WEEKDAYS, weekdayOf } from "../plan/date";

/** The weekdays on which anything happens in a term, Monday (0) first. */
export function practisedWeekdays(
  term: PlayerTerm,
): readonly { readonly name: string; readonly weekday: number }[] {
  const used = new Set(
    term.days
      .filter((day) => day.sessions.length > 0 || day.bookings.length > 0)
      .map((day) => weekdayOf(day.date)),
  );
  return WEEKDAYS.map((name, weekday) => ({ name, weekday })).filter(({ weekday }) => used.has(weekday));
}
