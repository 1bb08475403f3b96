import { isPracticeDay } from "../days/taught-weeks";
import { Fixer } from "../fixes/fixer";
import { findingData } from "../output/finding-data";
import { findingList } from "../output/finding-list";
import { counted } from "../output/numbers";
import { playersOf } from "../plan/plan";
import type { Finding } from "../rules/finding";
import type { Checked } from "../workspace/check-sources";
import { readOptions } from "./options";
import { pathShower, readPlans } from "./read-plans";
import { CLEAN, FOUND, type World } from "./world";

interface Summary {
  readonly errors: number;
  readonly warnings: number;
  readonly notes: number;
  readonly files: number;
  readonly terms: number;
  readonly days: number;
}

/** `leadpipe check`: what is the matter with these plans. */
export async function check(args: readonly string[], world: World): Promise<number> {
  const { words, switches } = readOptions("check", args, {
    json: "switch",
    strict: "switch",
    quiet: "switch",
    mends: "switch",
  });
  const checked = await readPlans(words, world, { findings: true });
  const showPath = pathShower(world.cwd);
  const summary = summaryOf(checked);
  if (switches.has("json")) {
    const files = checked.files
      .filter((file) => file.asked || file.findings.length > 0)
      .map((file) => ({
        path: showPath(file.path),
        findings: file.findings.map((each) => findingData(each, checked.homes, showPath)),
      }));
    world.out(`${JSON.stringify({ files, summary }, null, 2)}\n`);
  } else {
    const plain = { paint: world.paint, showPath };
    const wanted = (finding: Finding): boolean => !(switches.has("quiet") && finding.severity === "note");
    const shown = checked.files.flatMap((file) => {
      const fixer = new Fixer(file.plan, file.ground);
      const style = switches.has("mends")
        ? { ...plain, fixesFor: (finding: Finding) => fixer.fixesFor(finding) }
        : plain;
      return findingList(file, file.findings.filter(wanted), checked.homes, style).map((text) => `${text}\n`);
    });
    world.out(shown.join(""));
    world.out(`${shown.length > 0 ? "\n" : ""}${summaryText(summary)}\n`);
  }
  const bad = summary.errors + (switches.has("strict") ? summary.warnings : 0);
  return bad > 0 ? FOUND : CLEAN;
}

function summaryOf({ files }: Checked): Summary {
  const found = files.flatMap((file) => file.findings);
  const count = (severity: string): number => found.filter((each) => each.severity === severity).length;
  const asked = files.filter((file) => file.asked);
  let terms = 0;
  let days = 0;
  for (const { plan } of asked) {
    for (const term of plan.own.terms) {
      terms++;
      let practice = 0;
      for (let day = term.dates.from; day <= term.dates.to; day++) if (isPracticeDay(term, day)) practice++;
      // Each player has the day to practise, and each is checked.
      days += practice * playersOf(plan, term).length;
    }
  }
  return {
    errors: count("error"),
    warnings: count("warning"),
    notes: count("note"),
    files: asked.length,
    terms,
    days,
  };
}

function summaryText({ errors, warnings, notes, files, terms, days }: Summary): string {
  const found = [
    errors > 0 ? counted(errors, "error") : "",
    warnings > 0 ? counted(warnings, "warning") : "",
    notes > 0 ? counted(notes, "note") : "",
  ].filter((each) => each !== "");
  const what = found.length === 0 ? "nothing to mend" : found.join(", ");
  const read = `${what} in ${counted(files, "file")}`;
  return terms === 0 ? read : `${read}; ${counted(terms, "term")}, ${counted(days, "day")} checked`;
}
