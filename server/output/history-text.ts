import type { PlayerTerm } from "../days/day";
import { spokenDate } from "../plan/date";
import { loadHistory } from "../totals/load-history";
import type { RatioMethod } from "../totals/training-load";
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
  const rows = loadHistory(term, method).map(({ week, date, load, ratio, monotony, strain }) => [
    String(week),
    spokenDate(date),
    String(Math.round(load)),
    ratio === undefined ? "–" : plainNumber(ratio),
    monotony === undefined ? "–" : plainNumber(monotony),
    strain === undefined ? "–" : String(Math.round(strain)),
  ]);
  const columns = ["Week", "To", "Load", `Ratio (${method})`, "Monotony", "Strain"].map((title) => ({
    title,
    figures: title !== "To",
  }));
  return `${safeText(term.term.name)}: ${safeText(term.player.name)}\n\n${tableText(columns, rows)}`;
}
