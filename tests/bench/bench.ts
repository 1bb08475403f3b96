import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { buildSync } from "esbuild";
import { ENGINE_OPTIONS } from "../../server/protocol/engine-options";
import { timeHere } from "./answering";
import { Apart } from "./apart";
import { memoryOfNode, timeOfNode } from "./child";
import { writeConservatory } from "./conservatory";
import { notation } from "./notation";
import { packetOf24 } from "./packet";
import { practiceText } from "./practice-text";
import { CONSERVATORY, ONE_PLAN, type StudioSize, studioOf, TWICE_THE_CONSERVATORY } from "./studio";
import { best, interleaved, median, type Timed } from "./timing";
import { YamlReference } from "./yaml-reference";
import { YAML_SCHEMA, yamlText } from "./yaml-text";
import { comparing, reporting, type YearGround } from "./year";

/**
 * `npm run bench`, or `npm run bench -- a d` for some of its parts. Every bar is a ratio of two things measured
 * side by side in this run, so it holds on a slow machine as on a fast one. Ends with 1 where a bar is missed.
 */

const ROOT = fileURLToPath(new URL("../..", import.meta.url));
const CLI = join(ROOT, "dist", "leadpipe.cjs");
const WARM_UP = 10;

let missed = 0;

/** Says how one figure stands to its bar. */
function judge(part: string, what: string, figure: number, bar: number, unit: string, beside: string): void {
  const holds = figure <= bar;
  if (!holds) missed++;
  const verdict = holds ? "ok    " : "MISSED";
  process.stdout.write(
    `(${part}) ${verdict} ${what}: ${figure.toFixed(3)} ${unit} (bar ${bar})   ${beside}\n`,
  );
}

function ms(time: number): string {
  return `${time.toFixed(1)} ms`;
}

/** The time of work in this process. */
function here(work: () => unknown): Timed {
  return () => timeHere(work);
}

const plan = studioOf(ONE_PLAN);
const yaml = yamlText(plan);
const reference = new YamlReference(YAML_SCHEMA);

/** Y, once. */
const validateYaml = here(() => reference.soundly(yaml));

const temporary: string[] = [];
process.once("exit", () => {
  for (const folder of temporary) rmSync(folder, { recursive: true, force: true });
});

/** A folder that is gone when the bench ends. */
function temporaryFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), "leadpipe-bench-"));
  temporary.push(folder);
  return folder;
}

/** Sources bundled as they are shipped: the loader that runs this bench marks every function, which slows it. */
function bundled(source: string): string {
  const outfile = join(temporaryFolder(), "bundled.mjs");
  buildSync({
    entryPoints: [join(ROOT, source)],
    outfile,
    bundle: true,
    platform: "node",
    target: "node20",
    format: "esm",
    // Some libraries are written for the older form of modules.
    banner: {
      js: 'import { createRequire } from "node:module"; const require = createRequire(import.meta.url);',
    },
    minify: true,
    logLevel: "warning",
  });
  return outfile;
}

/** How often each is done in a row: for about half a second, so that what else a machine does falls on both alike. */
const IN_A_ROW = { yaml: 4, practice: 28 };

/**
 * (a) One plan of 200 kB: read, unrolled and checked, nothing carried over from the run before. Each in a process of
 * its own, as it is shipped, so that neither pays for what the other keeps in memory: ours with the engine set up as
 * the extension sets it up, the service with the engine's defaults. The YAML service is one of those that cannot be
 * bundled; the loader does not slow it.
 */
async function onePlan(): Promise<void> {
  const asYaml = new Apart(join(ROOT, "tests/bench/plan-as-yaml.ts"), IN_A_ROW.yaml);
  const asPractice = new Apart(bundled("tests/bench/plan-as-practice.ts"), IN_A_ROW.practice, ENGINE_OPTIONS);
  try {
    await interleaved(WARM_UP, asYaml.time, asPractice.time);
    const [y, ours] = (await interleaved(15, asYaml.time, asPractice.time)).map(median) as [number, number];
    const practice = practiceText(plan);
    const sizes = `YAML ${(yaml.length / 1000).toFixed(0)} kB, .practice ${(practice.length / 1000).toFixed(0)} kB`;
    judge("a", "the plan, read and checked", ours / y, 1 / 8, "Y", `${ms(ours)}, Y ${ms(y)}; ${sizes}`);
  } finally {
    asYaml.end();
    asPractice.end();
  }
}

function conservatoryFolder(size: StudioSize): string {
  const folder = temporaryFolder();
  writeConservatory(folder, size);
  return folder;
}

function checking(folder: string): readonly string[] {
  return [CLI, "check", folder];
}

/** (b) The conservatory in a fresh process: time and memory. */
async function conservatory(): Promise<void> {
  const folder = conservatoryFolder(CONSERVATORY);
  const check: Timed = () => timeOfNode(checking(folder));
  await interleaved(WARM_UP, validateYaml);
  await interleaved(1, check);
  const [y, ours] = (await interleaved(7, validateYaml, check)).map(median) as [number, number];
  judge("b", "the conservatory in a fresh process", ours / y, 15, "Y", `${ms(ours)}, Y ${ms(y)}`);
  judge("b", "the conservatory's memory", memoryOfNode(checking(folder)), 300, "MB", "");
}

/** (c) Twice the conservatory, to see that the time grows with the work and no faster. */
async function twiceTheConservatory(): Promise<void> {
  const once = conservatoryFolder(CONSERVATORY);
  const twice = conservatoryFolder(TWICE_THE_CONSERVATORY);
  const works: readonly Timed[] = [once, twice].map((folder) => () => timeOfNode(checking(folder)));
  const [one, two] = (await interleaved(5, ...works)).map(best) as [number, number];
  judge("c", "twice the conservatory", two / one, 2.2, "times", `${ms(two)} and ${ms(one)}`);
}

/** (d) The sample studio from the command line, beside a Node that does nothing. */
async function samples(): Promise<void> {
  const nothing: Timed = () => timeOfNode(["-e", "0"]);
  const check: Timed = () => timeOfNode(checking(join(ROOT, "samples")));
  await interleaved(2, nothing, check);
  const [node, ours] = (await interleaved(15, nothing, check)).map(median) as [number, number];
  judge("d", "leadpipe check samples", ours / node, 6, "× node -e 0", `${ms(ours)} and ${ms(node)}`);
}

/** Measures in a process that holds nothing else, and judges what that prints. */
function typingApart(...on: readonly string[]): void {
  const server = join(ROOT, "dist", "server.cjs");
  const printed = execFileSync(process.execPath, [bundled("tests/bench/typing.ts"), server, ...on], {
    encoding: "utf8",
    stdio: ["ignore", "pipe", "inherit"],
  });
  for (const line of printed.trim().split("\n")) judge(...(JSON.parse(line) as Parameters<typeof judge>));
}

/** (e, f) A letter typed in a long plan, over stdio, and what is asked behind it. */
function typing(): void {
  typingApart();
}

/** (g) The book that a whole conservatory uses is edited. */
function book(): void {
  typingApart(conservatoryFolder(CONSERVATORY));
}

/** (h) What 20,000 edits leave behind. */
async function heapOfEdits(): Promise<void> {
  const grown = execFileSync(process.execPath, [bundled("tests/bench/heap-of-edits.ts")], {
    encoding: "utf8",
  });
  judge("h", "the heap after 20,000 edits", Number(grown), 1.05, "times", "");
}

function yearGround(): YearGround {
  const practice = practiceText(plan);
  return { cli: CLI, folder: conservatoryFolder, bundled, here, validateYaml, practice, judge };
}

const PARTS = new Map([
  ["a", onePlan],
  ["b", conservatory],
  ["c", twiceTheConservatory],
  ["d", samples],
  ["e", typing],
  ["g", book],
  ["h", heapOfEdits],
  ["i", () => comparing(yearGround())],
  ["j", () => reporting(yearGround())],
  ["k", () => packetOf24({ root: ROOT, cli: CLI, judge })],
  ["l", () => notation({ dist: join(ROOT, "dist"), judge })],
]);

const asked = process.argv.slice(2);
const unknown = asked.filter((part) => !PARTS.has(part));
if (unknown.length > 0) {
  process.stderr.write(
    `There is no part ${unknown.join(", ")}. The parts are ${[...PARTS.keys()].join(", ")}.\n`,
  );
  process.exit(2);
}
if (asked.length === 0 || asked.some((part) => part !== "a")) {
  // What is measured is what is built from the sources as they stand.
  execFileSync("npm", ["run", "--silent", "build"], { cwd: ROOT, stdio: "inherit" });
}
for (const [part, measure] of PARTS) {
  if (asked.length === 0 || asked.includes(part)) await measure();
}
process.exitCode = missed > 0 ? 1 : 0;
