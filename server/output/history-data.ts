import type { PlayerTerm } from "../days/day";
import { dateText } from "../plan/date";
import { loadHistory } from "../totals/load-history";
import type { RatioMethod } from "../totals/training-load";
import { csvText } from "./csv";

/** The load history of terms as other programs read it: points, and `null` for what cannot be said. */
export function historyData(terms: readonly PlayerTerm[], method: RatioMethod): readonly object[] {
  return terms.flatMap((term) =>
    loadHistory(term, method).map(({ week, date, load, ratio, monotony, strain }) => ({
      term: term.term.name,
      player: term.player.name,
      week,
      to: dateText(date),
      load: thousandths(load),
      method,
      ratio: thousandths(ratio),
      monotony: thousandths(monotony),
      strain: thousandths(strain),
    })),
  );
}

/** The same for a spreadsheet, an empty field for what cannot be said. */
export function historyCsv(terms: readonly PlayerTerm[], method: RatioMethod): string {
  const heading = [
    "term",
    "player",
    "week",
    "to",
    "load (points)",
    `ratio (${method})`,
    "monotony",
    "strain",
  ];
  const rows = terms.flatMap((term) =>
    loadHistory(term, method).map(({ week, date, load, ratio, monotony, strain }) => [
      term.term.name,
      term.player.name,
      week,
      dateText(date),
      load,
      ratio ?? "",
      monotony ?? "",
      strain ?? "",
    ]),
  );
  return csvText([heading, ...rows]);
}

function thousandths(value: number | undefined): number | null {
  return value === undefined ? null : Math.round(value * 1000) / 1000;
}
