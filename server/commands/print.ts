import { basename, dirname, extname, join, resolve } from "node:path";
import { findInstrument, type Instrument } from "../music/instrument";
import { EngravingError, type RunningEngraver } from "../notation/engrave";
import { fileNames } from "../output/file-names";
import { counted } from "../output/numbers";
import { type Engravings, engravings } from "../output/packet-engraving";
import { packetTasks } from "../output/packet-files";
import {
  type Printed,
  packetLook,
  printedPacket,
  printedSheets,
  reckonedSheets,
} from "../output/packet-print";
import { PressError, type RunningPress } from "../output/press";
import { safeText } from "../output/safe-text";
import {
  type AskedTerm,
  dayChoice,
  packetChoice,
  seesFingerings,
  type Wanted,
  weekChoice,
} from "../pages/sheet-choice";
import { packetHtml, sheetsHtml } from "../pages/sheet-html";
import { type PacketAsk, packet } from "../pages/sheet-packet";
import type { PageStyle, Paper } from "../pages/sheet-style";
import { longDate } from "../pages/sheet-words";
import { dateText, mondayOf, parseDate, spokenDate } from "../plan/date";
import type { Exercise } from "../plan/exercise";
import type { Plan } from "../plan/plan";
import type { Player } from "../plan/player";
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
  const jobs = asked === "packet" ? [packetJob(checked, typed)] : sheetJobs(asked, checked, typed, world);
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

/** Pages that go into one file. */
type Pages =
  | { readonly kind: "sheets"; readonly title: string; readonly wanted: readonly Wanted[] }
  | { readonly kind: "packet"; readonly ask: PacketAsk; readonly fingerings: boolean };

interface Job {
  /** The name of its file, without the ending. */
  readonly name: string;
  readonly pages: Pages;
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
    world.err(
      `${safeText(show(file.path))} has ${counted(errors, "error")}; the pages hold what could be read. “leadpipe check” says more.\n`,
    );
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
function sheetJobs(what: "day" | "week", checked: Checked, typed: Typed, world: World): readonly Job[] {
  const terms = askedTerms(checked, typed);
  if (terms.length === 0) throw new Misuse("There is no term here to print from.");
  const date = dateOf(typed, world);
  const week = weekOf(typed);
  const byPlayer = new Map<string, AskedTerm[]>();
  for (const each of terms) {
    const { name } = each.term.player;
    byPlayer.set(name, [...(byPlayer.get(name) ?? []), each]);
  }
  const fingerings = typed.switches.has("fingerings");
  const jobs: Job[] = [];
  for (const [player, own] of byPlayer) {
    if (week !== undefined && own.length > 1) {
      throw new Misuse(
        `${player} has more than one term here, and each has its own week ${week}. Name one with “--term”, or ask by a date, with “--on”.`,
      );
    }
    const days = !typed.switches.has("overview");
    const wanted =
      what === "day"
        ? dayChoice(own, date, fingerings)
        : weeksOf(own, date, week).flatMap(([each, number]) =>
            weekChoice(each, number, { days, fingerings }),
          );
    if (wanted.length === 0) continue;
    const when = what === "day" ? spokenDate(date) : `week of ${dateText(firstDay(wanted))}`;
    const title = what === "day" ? longDate(date) : `Week of ${longDate(firstDay(wanted))}`;
    const name = `${player}, ${when}`;
    jobs.push({ name, pages: { kind: "sheets", title: `${player}, ${title}`, wanted } });
  }
  if (jobs.length === 0) {
    const who = typed.values.get("player") ?? "anybody";
    const when =
      what === "day"
        ? `on ${spokenDate(date)}`
        : week === undefined
          ? `in the week of ${dateText(mondayOf(date))}`
          : `in week ${week}`;
    throw new Misuse(
      `There is nothing to practise for ${who} ${when}. “leadpipe totals --by day” shows the days there are.`,
    );
  }
  return jobs;
}

/** The Monday of the first sheet's week. */
function firstDay(wanted: readonly Wanted[]): number {
  const dates = wanted.map((each) => (each.kind === "week" ? each.sheet.monday : each.of.day.date));
  return mondayOf(Math.min(...dates));
}

function weeksOf(
  terms: readonly AskedTerm[],
  date: number,
  week: number | undefined,
): readonly (readonly [AskedTerm, number])[] {
  return terms.flatMap((each): (readonly [AskedTerm, number])[] => {
    if (week !== undefined) return week <= each.term.weeks ? [[each, week]] : [];
    const day = each.term.days.find(
      ({ date: own, week: number }) => mondayOf(own) === mondayOf(date) && number !== undefined,
    );
    return day?.week === undefined ? [] : [[each, day.week]];
  });
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
function packetJob(checked: Checked, typed: Typed): Job {
  const { values, switches } = typed;
  const [playerName, termName] = [values.get("player"), values.get("term")];
  const ofTerm = playerName !== undefined || termName !== undefined;
  const wish = values.get("keys") ?? (ofTerm ? "travelled" : "home");
  const keys = KEYS.find((each) => each === wish);
  if (keys === undefined || (keys === "travelled" && !ofTerm)) {
    throw new Misuse(
      `“--keys” takes all, home or travelled, not “${wish}”; what is travelled, a player or a term must say.`,
    );
  }
  const terms = ofTerm ? askedTerms(checked, typed) : [];
  const plans = checked.files.filter((file) => file.asked).map((file) => file.plan);
  const plan = terms[0]?.plan ?? plans.find((each) => each.exercises.size > 0);
  if (plan === undefined) throw new Misuse("There is no exercise in these files to print.");
  const player = playerName === undefined ? undefined : findPlayers(checked, playerName)[0];
  if (ofTerm && terms.length === 0) throw new Misuse("There is no term here to print from.");
  const instrument = instrumentFor(player, terms, checked);
  const book = bookOf(terms.length > 0 ? terms.map((each) => each.plan) : plans);
  const title = values.get("title") ?? playerName ?? termName ?? plan.settings.name ?? "The exercise book";
  const ask = packetChoice(
    {
      title,
      lines: [
        ...(playerName === undefined || termName === undefined || title === termName ? [] : [termName]),
        ...(playerName === undefined
          ? [...new Set(terms.map(({ term }) => term.player.name))].slice(0, 8)
          : []),
        instrument.name.charAt(0).toUpperCase() + instrument.name.slice(1),
        KEY_WORDS[keys],
      ],
      plan,
      instrument,
      player,
      terms: terms.map((each) => each.term),
      keys,
    },
    book,
  );
  if (ask.entries.length === 0) {
    throw new Misuse("There is nothing to practise in this term, and so nothing to put into a packet.");
  }
  const fingerings =
    player === undefined
      ? switches.has("fingerings") || terms.some(({ term }) => seesFingerings(term.player, false))
      : seesFingerings(player, switches.has("fingerings"));
  return { name: `${title}, packet`, pages: { kind: "packet", ask, fingerings } };
}

const KEY_WORDS: Readonly<Record<(typeof KEYS)[number], string>> = {
  travelled: "Each exercise in the keys it travels through",
  all: "Each exercise in all its keys",
  home: "Each exercise in its home key",
};

function instrumentFor(
  player: Player | undefined,
  terms: readonly AskedTerm[],
  checked: Checked,
): Instrument {
  const found = player ?? terms[0]?.term.player ?? findPlayers(checked, undefined)[0];
  const usual = found?.instrument ?? findInstrument("trumpet");
  if (usual === undefined) throw new RangeError("the usual trumpet is gone");
  return usual;
}

/** The exercises of several plans, each name once. */
function bookOf(plans: readonly Plan[]): ReadonlyMap<string, Exercise> {
  const book = new Map<string, Exercise>();
  for (const plan of plans) {
    for (const [name, exercise] of plan.exercises) if (!book.has(name)) book.set(name, exercise);
  }
  return book;
}

interface File {
  readonly path: string;
  readonly pages: Pages;
}

/** Where everything goes: one file, or a file for each player in a folder. */
function filesOf(jobs: readonly Job[], { values, switches }: Typed, world: World): readonly File[] {
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

function together(jobs: readonly Job[], path: string): File {
  const [first] = jobs;
  if (first === undefined || first.pages.kind === "packet" || jobs.length === 1) {
    return { path, pages: first?.pages ?? { kind: "sheets", title: "", wanted: [] } };
  }
  if (!isFolder(dirname(path))) throw new Misuse(`There is no folder for “${basename(path)}”.`);
  const wanted = jobs.flatMap(({ pages }) => (pages.kind === "sheets" ? pages.wanted : []));
  return { path, pages: { kind: "sheets", title: basename(path, extname(path)), wanted } };
}

/** The content of a file, and what is to be said of it after its name. */
async function contentOf(
  pages: Pages,
  style: PageStyle,
  html: boolean,
  workshop: Workshop,
  world: World,
): Promise<{ readonly content: string | Uint8Array; readonly said: string }> {
  if (html) return { content: await htmlOf(pages, style, workshop, world), said: "" };
  const made = await printed(pages, style, workshop);
  tellFailed(made.failed, world);
  if (made.missing.length > 0) {
    const letters = made.missing.slice(0, 12).join(" ");
    world.err(
      `The faces of these pages lack ${made.missing.length === 1 ? "a letter" : `${made.missing.length} letters`}, for which an empty box stands: ${safeText(letters)}\n`,
    );
  }
  return { content: made.pdf, said: style.large ? "" : overlongWords(made.overlong) };
}

/** Days that did not fit a page: which one, or how many. */
function overlongWords(overlong: Printed["overlong"]): string {
  const [first] = overlong;
  if (first === undefined) return "";
  const most = Math.max(...overlong.map((each) => each.pages));
  if (overlong.length > 1) return ` (${overlong.length} days take more than a page each, at most ${most})`;
  const when = first.wanted.kind === "day" ? spokenDate(first.wanted.of.day.date) : "the week";
  return ` (${when} takes ${counted(most, "page")})`;
}

async function printed(pages: Pages, style: PageStyle, workshop: Workshop): Promise<Printed> {
  if (pages.kind === "sheets") {
    const works = await workshop.works(1);
    const press = await workshop.press();
    return printedSheets(pages.wanted, pages.title, style, { ...works, press }, workshop.kept);
  }
  const made = packet(pages.ask, packetLook(style, pages.fingerings));
  const works = await workshop.works(packetTasks(made).length);
  const press = await workshop.press();
  return printedPacket(made, style, { ...works, press });
}

async function htmlOf(pages: Pages, style: PageStyle, workshop: Workshop, world: World): Promise<string> {
  if (pages.kind === "sheets") {
    const { sheets, made } = await reckonedSheets(pages.wanted, style, await workshop.works(1));
    tellFailed(made.failed, world);
    return sheetsHtml(sheets, pages.title, style, made.of);
  }
  const book = packet(pages.ask, packetLook(style, pages.fingerings));
  const tasks = packetTasks(book);
  const made: Engravings = await engravings(tasks, await workshop.works(tasks.length), new Map());
  tellFailed(made.failed, world);
  return packetHtml(book, style, made.of);
}

function tellFailed(failed: readonly string[], world: World): void {
  for (const each of failed) world.err(`${safeText(each)}: the engraver could not read this music.\n`);
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
