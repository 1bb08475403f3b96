import type { PlayerTerm } from "../days/day";
import { loadHistory } from "../totals/load-history";
import type { RatioMethod } from "../totals/training-load";
import { figuresTable } from "./figures-table";
import { html, type Markup } from "./markup";

/** Figures of sports science, on request alone, under the words that say what they cannot say. */
export interface HistoryAsk {
  readonly method: RatioMethod;
  readonly caution: string;
}

/** The load against the weeks before, monotony and strain. */
export function historyPart(term: PlayerTerm, { method, caution }: HistoryAsk): Markup {
  const rows = loadHistory(term, method).map(({ week, load, ratio, monotony, strain }) => ({
    head: String(week),
    cells: [
      String(Math.round(load)),
      ratio === undefined ? "–" : hundredths(ratio),
      monotony === undefined ? "–" : hundredths(monotony),
      strain === undefined ? "–" : String(Math.round(strain)),
    ],
  }));
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
