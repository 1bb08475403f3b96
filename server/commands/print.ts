import { basename, dirname, extname, join, resolve } from "node:path";
import { EngravingError, type RunningEngraver } from "../notation/engrave";
import { fileNames } from "../output/file-names";
import { counted } from "../output/numbers";
import {
  byPlayer,
  htmlOf,
  joinedJobs,
  type Pages,
  type PrintJob,
  packetJob,
  pdfOf,
  picturesOf,
  type SheetsAsk,
  sheetJobs,
} from "../output/packet-jobs";
import { PressError, type RunningPress } from "../output/press";
import {
  emptyPacketWords,
  errorsWords,
  failedWords,
  missingWords,
  NO_TERM,
  nothingWords,
  overlongWords,
} from "../output/print-words";
import { safeText } from "../output/safe-text";
import type { AskedTerm } from "../pages/sheet-choice";
import type { PageStyle, Paper } from "../pages/sheet-style";
import { parseDate } from "../plan/date";
import type { Checked } from "../workspace/check-sources";
import { findPlayers } from "./asked-exercise";
import { termsOf } from "./asked-terms";
import { readOptions, type Typed } from "./options";
import { PATIENCE, pathShower, readPlans } from "./read-plans";
import { CLEAN, FOUND, INTERRUPTED, Misuse, type World } from "./world";
import { isFolder, isThere, makeFolder, UnwrittenError, writeWhole } from "./write-file";

/** What can be printed. */
const WHATS = ["day", "week", "packet"] as const;

/** From so many pictures on a second engraver pays for its start. */
const MANY_PICTURES = 40;

/** `leadpipe print`: pages for the music stand. */
export async function print(args: readonly string[], world: World): Promise<number> {
  const typed = readOptions("print", args, {
    on: "value",
    week: "value",
    player: "value",
    term: "value",
    keys: "value",
    paper: "value",
    title: "value",
    to: "value",
    large: "switch",
    fingerings: "switch",
    overview: "switch",
    html: "switch",
    force: "switch",
  });
  const [what, ...paths] = typed.words;
  const asked = WHATS.find((each) => each === what);
  if (asked === undefined) {
    const got = what === undefined ? "" : ` “${what}” is none of them.`;
    throw new Misuse(
      `Say what to print: day, week or packet.${got} For instance: leadpipe print week samples --player "K. M."`,
    );
  }
  const style = styleOf(typed);
  refuseStrangers(asked, typed);
  const checked = await readPlans(paths, world, { findings: false });
  const jobs = asked === "packet" ? [packetOf(checked, typed)] : sheetsOf(asked, checked, typed, world);
  const files = filesOf(jobs, typed, world);
  const workshop = new Workshop(world);
  try {
    tellErrors(checked, world);
    const made: { readonly path: string; readonly content: string | Uint8Array; readonly said: string }[] =
      [];
    for (const [index, { path, pages }] of files.entries()) {
      workshop.begin(index, files.length);
      made.push({ path, ...(await contentOf(pages, style, typed.switches.has("html"), workshop, world)) });
    }
    workshop.quiet();
    // All pages are made before the first file is written, so that whoever stops the work finds nothing.
    for (const folder of new Set(made.map((each) => dirname(each.path)))) makeFolder(folder);
    const show = pathShower(world.cwd);
    for (const { path, content, said } of made) {
      workshop.signal.throwIfAborted();
      writeWhole(path, content);
      world.out(`${safeText(show(path))}${said}\n`);
    }
    return CLEAN;
  } catch (error) {
    workshop.quiet();
    if (workshop.signal.aborted) {
      world.err("Stopped. No page is left half written.\n");
      return INTERRUPTED;
    }
    if (!(error instanceof UnwrittenError || error instanceof EngravingError || error instanceof PressError))
      throw error;
    world.err(`${safeText(error.message)}\n`);
    return FOUND;
  } finally {
    await workshop.stop();
  }
}

function styleOf({ values, switches }: Typed): PageStyle {
  const asked = (values.get("paper") ?? "a4").toLowerCase();
  const papers: readonly Paper[] = ["a4", "letter"];
  const paper = papers.find((each) => each === asked);
  if (paper === undefined) throw new Misuse(`“--paper” takes A4 or letter, not “${values.get("paper")}”.`);
  return { paper, large: switches.has("large") };
}

/** Options that say nothing for what is printed are more likely a slip than a wish. */
function refuseStrangers(what: (typeof WHATS)[number], { values, switches }: Typed): void {
  const strangers = {
    day: ["week", "keys", "title", "overview"],
    week: ["keys", "title"],
    packet: ["on", "week", "overview"],
  }[what];
  const stranger = strangers.find((each) => values.has(each) || switches.has(each));
  if (stranger !== undefined) throw new Misuse(`“--${stranger}” says nothing for a ${what}.`);
  if (what === "week" && values.has("on") && values.has("week"))
    throw new Misuse("Ask for a week by “--week” or by “--on”, not by both.");
}

/** What is wrong in the plans is said, and what could be read is printed all the same. */
function tellErrors({ files }: Checked, world: World): void {
  const show = pathShower(world.cwd);
  for (const file of files) {
    if (!file.asked) continue;
    const errors = file.findings.filter((each) => each.severity === "error").length;
    if (errors === 0) continue;
    world.err(`${errorsWords(safeText(show(file.path)), errors)} “leadpipe check” says more.\n`);
  }
}

function askedTerms(checked: Checked, { values }: Typed): readonly AskedTerm[] {
  const terms = termsOf(checked, { player: values.get("player"), term: values.get("term") });
  const plans = checked.files.filter((file) => file.asked).map((file) => file.plan);
  return terms.flatMap((term) => {
    const plan = plans.find((each) => each.own.terms.includes(term.term));
    return plan === undefined ? [] : [{ plan, term }];
  });
}

/** A job for each player who has anything to practise. */
function sheetsOf(what: "day" | "week", checked: Checked, typed: Typed, world: World): readonly PrintJob[] {
  const terms = askedTerms(checked, typed);
  if (terms.length === 0) throw new Misuse(NO_TERM);
  const week = weekOf(typed);
  const date = dateOf(typed, world);
  if (week !== undefined) {
    for (const [player, own] of byPlayer(terms)) {
      if (own.length === 1) continue;
      throw new Misuse(
        `${player} has more than one term here, and each has its own week ${week}. Name one with “--term”, or ask by a date, with “--on”.`,
      );
    }
  }
  const when: SheetsAsk["when"] =
    what === "day"
      ? { kind: "day", date }
      : week === undefined
        ? { kind: "week of", date }
        : { kind: "week", number: week };
  const { switches } = typed;
  const jobs = sheetJobs({
    terms,
    when,
    days: !switches.has("overview"),
    fingerings: switches.has("fingerings"),
  });
  if (jobs.length === 0) {
    throw new Misuse(
      `${nothingWords(typed.values.get("player"), when)} “leadpipe totals --by day” shows the days there are.`,
    );
  }
  return jobs;
}

function dateOf({ values }: Typed, world: World): number {
  const typed = values.get("on");
  if (typed === undefined) {
    const now = world.today();
    const day = [now.getFullYear(), now.getMonth() + 1, now.getDate()].map((n) => String(n).padStart(2, "0"));
    return parseDate(day.join("-")) ?? 0;
  }
  const date = parseDate(typed);
  if (date === undefined) throw new Misuse(`“--on” takes a date such as 2026-09-07, not “${typed}”.`);
  return date;
}

function weekOf({ values }: Typed): number | undefined {
  const typed = values.get("week");
  if (typed === undefined) return undefined;
  const week = Number(typed);
  if (Number.isInteger(week) && week > 0) return week;
  throw new Misuse(`“--week” takes the number of a taught week, such as 3, not “${typed}”.`);
}

const KEYS = ["travelled", "all", "home"] as const;

/** The packet of a player, a term, or the whole book. */
function packetOf(checked: Checked, typed: Typed): PrintJob {
  const { values, switches } = typed;
  const [playerName, term] = [values.get("player"), values.get("term")];
  const ofTerm = playerName !== undefined || term !== undefined;
  const wish = values.get("keys") ?? (ofTerm ? "travelled" : "home");
  const keys = KEYS.find((each) => each === wish);
  if (keys === undefined || (keys === "travelled" && !ofTerm)) {
    throw new Misuse(
      `“--keys” takes all, home or travelled, not “${wish}”; what is travelled, a player or a term must say.`,
    );
  }
  const terms = ofTerm ? askedTerms(checked, typed) : [];
  if (ofTerm && terms.length === 0) throw new Misuse(NO_TERM);
  const job = packetJob({
    plans: checked.files.filter((file) => file.asked).map((file) => file.plan),
    terms,
    player: playerName === undefined ? undefined : findPlayers(checked, playerName)[0],
    term,
    keys,
    title: values.get("title"),
    fingerings: switches.has("fingerings"),
  });
  if (job !== undefined) return job;
  throw new Misuse(emptyPacketWords(ofTerm));
}

interface File {
  readonly path: string;
  readonly pages: Pages;
}

/** Where everything goes: one file, or a file for each player in a folder. */
function filesOf(jobs: readonly PrintJob[], { values, switches }: Typed, world: World): readonly File[] {
  const ending = switches.has("html") ? ".html" : ".pdf";
  const to = values.get("to");
  const files =
    to !== undefined && isFileName(to, ending) ? [together(jobs, resolve(world.cwd, to))] : apart();
  const there = switches.has("force") ? [] : files.filter(({ path }) => isThere(path));
  const [first] = there;
  if (first !== undefined) {
    const others = there.length === 1 ? " is" : ` and ${counted(there.length - 1, "more file")} are`;
    throw new Misuse(
      `“${pathShower(world.cwd)(first.path)}”${others} there already; nothing was printed. To write over what is there, add --force.`,
    );
  }
  return files;

  function apart(): readonly File[] {
    const folder = resolve(world.cwd, to ?? ".");
    const names = fileNames(
      jobs.map((each) => each.name),
      ending,
    );
    return jobs.map(({ pages }, index) => ({
      path: join(folder, names[index] ?? `${index}${ending}`),
      pages,
    }));
  }
}

function isFileName(to: string, ending: string): boolean {
  const own = extname(to).toLowerCase();
  if (own === ending) return true;
  if (own === ".pdf" || own === ".html") {
    throw new Misuse(
      own === ".html" ? "For a web page, add --html." : "With --html, the file's name ends in .html.",
    );
  }
  return false;
}

function together(jobs: readonly PrintJob[], path: string): File {
  const [first] = jobs;
  if (first === undefined || first.pages.kind === "packet" || jobs.length === 1) {
    return { path, pages: first?.pages ?? { kind: "sheets", title: "", wanted: [] } };
  }
  if (!isFolder(dirname(path))) throw new Misuse(`There is no folder for “${basename(path)}”.`);
  return { path, pages: joinedJobs(jobs, basename(path, extname(path))) };
}

/** The content of a file, and what is to be said of it after its name. */
async function contentOf(
  pages: Pages,
  style: PageStyle,
  html: boolean,
  workshop: Workshop,
  world: World,
): Promise<{ readonly content: string | Uint8Array; readonly said: string }> {
  const works = await workshop.works(picturesOf(pages));
  if (html) {
    const made = await htmlOf(pages, style, works);
    tellFailed(made.failed, world);
    return { content: made.html, said: "" };
  }
  const made = await pdfOf(pages, style, { ...works, press: await workshop.press() }, workshop.kept);
  tellFailed(made.failed, world);
  const missing = missingWords(made.missing);
  if (missing !== undefined) world.err(`${safeText(missing)}\n`);
  const overlong = style.large ? undefined : overlongWords(made.overlong);
  return { content: made.pdf, said: overlong === undefined ? "" : ` (${overlong})` };
}

function tellFailed(failed: readonly string[], world: World): void {
  for (const each of failed) world.err(`${safeText(failedWords(each))}\n`);
}

/** Engravers and press, started when they are needed and ended at the end; and the line that says how far it is. */
class Workshop {
  readonly signal: AbortSignal;
  readonly kept = new Map<string, string>();
  private readonly engravers: RunningEngraver[] = [];
  private running: RunningPress | undefined;
  private readonly start: number;
  private told = false;
  private where = "";

  constructor(private readonly world: World) {
    this.signal = world.interruption();
    this.start = world.now();
  }

  begin(index: number, all: number): void {
    this.where = all === 1 ? "" : `File ${index + 1} of ${all}: `;
    this.signal.throwIfAborted();
  }

  async works(pictures: number) {
    const wanted = pictures >= MANY_PICTURES ? 2 : 1;
    while (this.engravers.length < wanted) this.engravers.push(await this.world.engraver());
    return {
      engravers: this.engravers,
      signal: this.signal,
      engraved: () => this.sendAway(),
      progress: (done: number, all: number): void => {
        this.tell(done < all ? `${done} of ${all} pictures engraved` : "Setting the pages");
      },
    };
  }

  async press(): Promise<RunningPress> {
    this.running ??= await this.world.press();
    return this.running;
  }

  private tell(words: string): void {
    const { world } = this;
    if (!world.watched || world.now() - this.start < PATIENCE) return;
    this.told = true;
    world.err(`\r\u001b[K${this.where}${words}`);
  }

  /** Takes the line away that said how far it is. */
  quiet(): void {
    if (this.told) this.world.err("\r\u001b[K");
    this.told = false;
  }

  /** Ends the engravers; more pictures start new ones. */
  private async sendAway(): Promise<void> {
    await Promise.all(this.engravers.splice(0).map((each) => each.stop()));
  }

  async stop(): Promise<void> {
    await this.sendAway();
    await this.running?.stop();
  }
}
