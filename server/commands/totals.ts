import type { PlayerTerm } from "../days/day";
import { coverageCsv, coverageData } from "../output/coverage-data";
import { coverageText } from "../output/coverage-text";
import { historyCsv, historyData } from "../output/history-data";
import { HISTORY_CAUTION, historyText } from "../output/history-text";
import { GRAINS, type Grain, type TotalsRow, totalsRows } from "../output/totals-rows";
import { CAUTION, COUNTING, totalsCsv, totalsData, totalsText } from "../output/totals-text";
import { methodOf, termsOf } from "./asked-terms";
import { readOptions } from "./options";
import { readPlans } from "./read-plans";
import { CLEAN, Misuse, type World } from "./world";

/** `leadpipe totals`: how long, how high and how much, for each player. */
export async function totals(args: readonly string[], world: World): Promise<number> {
  const { words, values, switches } = readOptions("totals", args, {
    by: "value",
    player: "value",
    term: "value",
    week: "value",
    json: "switch",
    csv: "switch",
    coverage: "switch",
    history: "value",
  });
  if (switches.has("json") && switches.has("csv")) throw new Misuse("Ask for --json or --csv, not for both.");
  const by = grainOf(values.get("by") ?? "week");
  const week = weekOf(values.get("week"));
  const checked = await readPlans(words, world, { findings: false });
  const wanted = { player: values.get("player"), term: values.get("term") };
  const terms = termsOf(checked, wanted);
  const method = methodOf(values.get("history"));
  if (switches.has("coverage") && method !== undefined) {
    throw new Misuse("Ask for --coverage or --history, not for both.");
  }
  if (method !== undefined) {
    if (switches.has("json")) world.out(`${JSON.stringify(historyData(terms, method), null, 2)}\n`);
    else if (switches.has("csv")) world.out(historyCsv(terms, method));
    else
      world.out(
        paged(
          terms.map((each) => historyText(each, method)),
          HISTORY_CAUTION,
        ),
      );
    return CLEAN;
  }
  if (switches.has("coverage")) {
    if (switches.has("json")) world.out(`${JSON.stringify(coverageData(terms), null, 2)}\n`);
    else if (switches.has("csv")) world.out(coverageCsv(terms));
    else world.out(paged(terms.map(coverageText), CAUTION));
    return CLEAN;
  }
  const rows = rowsOf(terms, by, week);
  if (switches.has("json")) world.out(`${JSON.stringify(totalsData(rows), null, 2)}\n`);
  else if (switches.has("csv")) world.out(totalsCsv(rows));
  else if (rows.length === 0) world.out(NO_TERM);
  else {
    const counting = by === "session" ? "" : `${COUNTING}\n`;
    world.out(`${totalsText(rows, by)}\n\n${counting}${CAUTION}\n`);
  }
  return CLEAN;
}

const NO_TERM = "There is no term here to add up.\n";

function paged(pages: readonly string[], foot: string): string {
  return pages.length === 0 ? NO_TERM : `${[...pages, foot].join("\n\n")}\n`;
}

function grainOf(word: string): Grain {
  const grain = GRAINS.find((each) => each === word);
  if (grain !== undefined) return grain;
  throw new Misuse(`“--by” takes session, day, week or term, not “${word}”.`);
}

function weekOf(text: string | undefined): number | undefined {
  if (text === undefined) return undefined;
  const week = Number(text);
  if (Number.isInteger(week) && week > 0) return week;
  throw new Misuse(`“--week” takes the number of a taught week, such as 3, not “${text}”.`);
}

function rowsOf(terms: readonly PlayerTerm[], by: Grain, week: number | undefined): readonly TotalsRow[] {
  const longest = Math.max(0, ...terms.map((each) => each.weeks));
  if (week !== undefined && week > longest && longest > 0) {
    throw new Misuse(`There is no week ${week}: the longest of these terms has ${longest} taught weeks.`);
  }
  return terms.flatMap((each) => totalsRows(each, by, week));
}
