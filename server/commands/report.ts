import { relative, resolve } from "node:path";
import { HISTORY_CAUTION } from "../output/history-text";
import { counted } from "../output/numbers";
import { safeText } from "../output/safe-text";
import { CAUTION } from "../output/totals-text";
import { termReport } from "../pages/term-report";
import { methodOf, termsOf } from "./asked-terms";
import { readOptions } from "./options";
import { readPlans } from "./read-plans";
import { CLEAN, FOUND, Misuse, type World } from "./world";
import { isThere, UnwrittenError, writeWhole } from "./write-file";

/** `leadpipe report`: coverage and load of terms as a page with charts and tables. */
export async function report(args: readonly string[], world: World): Promise<number> {
  const { words, values, switches } = readOptions("report", args, {
    to: "value",
    player: "value",
    term: "value",
    history: "value",
    force: "switch",
  });
  const method = methodOf(values.get("history"));
  const checked = await readPlans(words, world, { findings: false });
  const terms = termsOf(checked, { player: values.get("player"), term: values.get("term") });
  if (terms.length === 0) throw new Misuse("There is no term here to report on.");
  const path = resolve(world.cwd, values.get("to") ?? "report.html");
  const shown = safeText(relative(world.cwd, path));
  if (isThere(path) && !switches.has("force")) {
    throw new Misuse(`“${shown}” is there already. Nothing is written; --force writes it anew.`);
  }
  const history = method === undefined ? undefined : { method, caution: HISTORY_CAUTION };
  try {
    writeWhole(path, termReport({ terms, caution: CAUTION, history }));
  } catch (error) {
    if (!(error instanceof UnwrittenError)) throw error;
    world.err(`${safeText(error.message)}\n`);
    return FOUND;
  }
  world.out(`${shown}: ${counted(terms.length, "term and player", "terms and players")}\n`);
  return CLEAN;
}
