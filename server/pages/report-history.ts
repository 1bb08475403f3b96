import type { PlayerTerm } from "../days/day";
import { acuteToChronic, monotonyOf, type RatioMethod } from "../totals/training-load";
import { weekTotals } from "../totals/week";
import { figuresTable } from "./figures-table";
import { html, type Markup } from "./markup";

/** Figures of sports science, on request alone, under the words that say what they cannot say. */
export interface HistoryAsk {
  readonly method: RatioMethod;
  readonly caution: string;
}

/** The load against the weeks before, monotony and strain. */
export function historyPart(term: PlayerTerm, { method, caution }: HistoryAsk): Markup {
  const daily: number[] = [];
  const ends = new Map(weekTotals(term).map((week) => [week.days[week.days.length - 1]?.date, week]));
  const rows: { head: string; cells: string[] }[] = [];
  for (const day of term.days) {
    daily.push(day.totals.load);
    const week = ends.get(day.date);
    if (week === undefined) continue;
    const ratio = acuteToChronic(daily, method);
    const spread = monotonyOf(
      week.days.map((each) => each.totals.load),
      "population",
    );
    rows.push({
      head: String(week.week),
      cells: [
        String(Math.round(week.load)),
        ratio === undefined ? "–" : hundredths(ratio),
        spread === undefined ? "–" : hundredths(spread.monotony),
        spread === undefined ? "–" : String(Math.round(spread.strain)),
      ],
    });
  }
  const table = figuresTable({
    caption: `Load against the weeks before (${method})`,
    columns: ["Week", "Load", "Ratio", "Monotony", "Strain"],
    rows,
  });
  return html`<h3>Load against the weeks before</h3>
<p class="note">${caution}</p>
${table}`;
}

function hundredths(value: number): string {
  return String(Math.round(value * 100) / 100);
}
