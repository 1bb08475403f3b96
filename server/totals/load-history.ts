import type { PlayerTerm } from "../days/day";
import { acuteToChronic, monotonyOf, type RatioMethod } from "./training-load";
import { weekTotals } from "./week";

/** The load of one taught week beside the weeks before. */
export interface HistoryWeek {
  readonly week: number;
  /** The last day of the week within the term. */
  readonly date: number;
  readonly load: number;
  /** Undefined where too few days lie before, or nothing to compare with. */
  readonly ratio: number | undefined;
  /** Undefined where all its days are alike. */
  readonly monotony: number | undefined;
  readonly strain: number | undefined;
}

/** A term's load week by week, by a named method of weighing; the spread is that of a population. */
export function loadHistory(term: PlayerTerm, method: RatioMethod): readonly HistoryWeek[] {
  const daily: number[] = [];
  const rows: HistoryWeek[] = [];
  const ends = new Map(weekTotals(term).map((week) => [week.days[week.days.length - 1]?.date, week]));
  for (const day of term.days) {
    daily.push(day.totals.load);
    const week = ends.get(day.date);
    if (week === undefined) continue;
    const spread = monotonyOf(
      week.days.map((each) => each.totals.load),
      "population",
    );
    rows.push({
      week: week.week,
      date: day.date,
      load: week.load,
      ratio: acuteToChronic(daily, method),
      monotony: spread?.monotony,
      strain: spread?.strain,
    });
  }
  return rows;
}
