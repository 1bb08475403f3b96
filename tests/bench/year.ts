import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { dateText, parseDate } from "../../server/plan/date";
import { timeOfNode } from "./child";
import type { Judge } from "./judge";
import { CONSERVATORY, type StudioSize, TWICE_THE_CONSERVATORY } from "./studio";
import { best, interleaved, median, type Timed } from "./timing";

/** What the bench lends to its parts. */
export interface YearGround {
  /** The command line as it is shipped. */
  readonly cli: string;
  /** A conservatory in a folder of its own. */
  readonly folder: (size: StudioSize) => string;
  /** A source bundled as it is shipped. */
  readonly bundled: (source: string) => string;
  readonly here: (work: () => unknown) => Timed;
  readonly validateYaml: Timed;
  /** One plan of 200 kB. */
  readonly practice: string;
  readonly judge: Judge;
}

const YEAR = 364;

/** The year after: every date 52 weeks later, and some amounts and tempi others. */
export function yearAfter(text: string): string {
  let count = 0;
  return text
    .replace(/\d{4}-\d{2}-\d{2}/g, (date) => dateText((parseDate(date) ?? 0) + YEAR))
    .replace(/\btwice\b/g, (word) => (count++ % 3 === 0 ? "3 times" : word))
    .replace(/tempo (\d+) to (\d+)/g, (_, from: string, to: string) => `tempo ${from} to ${Number(to) + 2}`);
}

/** A conservatory and the same a year later, each in its folder. */
function twoYears({ folder }: YearGround, size: StudioSize): readonly [string, string] {
  const [before, after] = [folder(size), folder(size)];
  for (const entry of readdirSync(after, { withFileTypes: true, recursive: true })) {
    if (!entry.isFile()) continue;
    const path = join(entry.parentPath, entry.name);
    writeFileSync(path, yearAfter(readFileSync(path, "utf8")));
  }
  return [before, after];
}

/** (i) Two years of a conservatory compared, beside checking both. */
export async function comparing(ground: YearGround): Promise<void> {
  const { cli, judge } = ground;
  const years = twoYears(ground, CONSERVATORY);
  const checks = years.map(
    (year): Timed =>
      () =>
        timeOfNode([cli, "check", year]),
  );
  const compare: Timed = () => timeOfNode([cli, "compare", ...years]);
  await interleaved(1, compare);
  const [one = 0, two = 0, ours = 0] = (await interleaved(5, ...checks, compare)).map(median);
  const beside = `${ours.toFixed(0)} ms; checks ${one.toFixed(0)} and ${two.toFixed(0)} ms`;
  judge("i", "two conservatory years compared", ours / (one + two), 2.5, "× checking both", beside);
  const doubled = twoYears(ground, TWICE_THE_CONSERVATORY);
  const twice: Timed = () => timeOfNode([cli, "compare", ...doubled]);
  const [small = 0, large = 0] = (await interleaved(3, compare, twice)).map(best);
  judge(
    "i",
    "twice the size compared",
    large / small,
    2.2,
    "times",
    `${large.toFixed(0)} and ${small.toFixed(0)} ms`,
  );
}

/** (j) The report on a term of one player, the plan read and unrolled for it. */
export async function reporting(ground: YearGround): Promise<void> {
  const { here, validateYaml, judge, practice } = ground;
  const { reportOnce }: typeof import("./report-once") = await import(
    pathToFileURL(ground.bundled("tests/bench/report-once.ts")).href
  );
  const one = here(() => reportOnce(practice, 1));
  await interleaved(10, validateYaml, one);
  const [y = 0, ours = 0] = (await interleaved(15, validateYaml, one)).map(median);
  judge(
    "j",
    "a term's report for one player",
    ours / y,
    1,
    "Y",
    `${ours.toFixed(1)} ms, Y ${y.toFixed(1)} ms`,
  );
  const works = [3, 6].map((most) => here(() => reportOnce(practice, most)));
  const [small = 0, large = 0] = (await interleaved(15, ...works)).map(best);
  judge(
    "j",
    "twice as many reports",
    large / small,
    2.2,
    "times",
    `${large.toFixed(1)} and ${small.toFixed(1)} ms`,
  );
}
