import type { PlayerTerm } from "../days/day";
import { spokenDate } from "../plan/date";
import { acuteToChronic, monotonyOf, type RatioMethod } from "../totals/training-load";
import { weekTotals } from "../totals/week";
import { plainNumber } from "./numbers";
import { safeText } from "./safe-text";
import { tableText } from "./table";

/** What these figures cannot say, and who says so; it stands under them whenever they are shown. */
export const HISTORY_CAUTION = `The ratio sets the load of the last 7 days against that of the last 28; monotony is the mean of a week's daily loads
over their standard deviation (population), strain their sum times the monotony (Foster 1998). They come from
sports; none has been tried on brass players, and the ratio is strongly disputed (Impellizzeri and others 2020).
They warn of nothing here.`;

/** The load history of a term, week by week, by a named method of weighing. */
export function historyText(term: PlayerTerm, method: RatioMethod): string {
  const daily: number[] = [];
  const rows: string[][] = [];
  const ends = new Map(weekTotals(term).map((week) => [week.days[week.days.length - 1]!.date, week]));
  for (const day of term.days) {
    daily.push(day.totals.load);
    const week = ends.get(day.date);
    if (week === undefined) continue;
    const ratio = acuteToChronic(daily, method);
    const spread = monotonyOf(
      week.days.map((each) => each.totals.load),
      "population",
    );
    rows.push([
      String(week.week),
      spokenDate(day.date),
      String(Math.round(week.load)),
      ratio === undefined ? "–" : plainNumber(ratio),
      spread === undefined ? "–" : plainNumber(spread.monotony),
      spread === undefined ? "–" : String(Math.round(spread.strain)),
    ]);
  }
  const columns = ["Week", "To", "Load", `Ratio (${method})`, "Monotony", "Strain"].map((title) => ({
    title,
    figures: title !== "To",
  }));
  return `${safeText(term.term.name)}: ${safeText(term.player.name)}\n\n${tableText(columns, rows)}`;
}
