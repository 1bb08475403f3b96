import type { PlayerTerm } from "../days/day";
import { dateText } from "../plan/date";
import { coverageOf } from "../totals/coverage";
import { tempoGrowth } from "../totals/tempo-growth";
import { csvText } from "./csv";

/** One thing a term touches: so much of something at one place. */
interface Touch {
  /** Which of the four tables it belongs to. */
  readonly table: "exercise and key" | "area and day" | "register and week" | "tempo and week";
  readonly what: string;
  /** A key, a date, or the number of a taught week. */
  readonly at: string | number;
  readonly value: number;
  readonly unit: "times through" | "day" | "seconds" | "beats to the minute";
}

const REGISTERS = { low: "below C4", middle: "C4 to B4", high: "C5 and up" } as const;

function touches(term: PlayerTerm): readonly Touch[] {
  const { keys, areas, registers } = coverageOf(term);
  const found: Touch[] = [];
  for (const [what, here] of keys) {
    for (const [at, value] of here) {
      found.push({ table: "exercise and key", what, at, value, unit: "times through" });
    }
  }
  for (const [what, dates] of areas) {
    for (const date of dates) {
      found.push({ table: "area and day", what, at: dateText(date), value: 1, unit: "day" });
    }
  }
  for (const week of registers) {
    for (const part of ["low", "middle", "high"] as const) {
      const value = Math.round(week[part] * 1000) / 1000;
      found.push({
        table: "register and week",
        what: REGISTERS[part],
        at: week.week,
        value,
        unit: "seconds",
      });
    }
  }
  for (const { exercise, weeks } of tempoGrowth(term)) {
    for (const [i, bpm] of weeks.entries()) {
      if (bpm === undefined) continue;
      const value = Math.round(bpm * 1000) / 1000;
      found.push({ table: "tempo and week", what: exercise, at: i + 1, value, unit: "beats to the minute" });
    }
  }
  return found;
}

/** What terms touch, as other programs read it. */
export function coverageData(terms: readonly PlayerTerm[]): readonly object[] {
  return terms.map((term) => ({ term: term.term.name, player: term.player.name, touches: touches(term) }));
}

/** The same for a spreadsheet, which makes tables of it: a line for each thing at each place. */
export function coverageCsv(terms: readonly PlayerTerm[]): string {
  const rows = terms.flatMap((term) =>
    touches(term).map(({ table, what, at, value, unit }) => [
      term.term.name,
      term.player.name,
      table,
      what,
      at,
      value,
      unit,
    ]),
  );
  return csvText([["term", "player", "table", "what", "at", "value", "unit"], ...rows]);
}
