import { writeFileSync } from "node:fs";
import { dirname, relative, resolve } from "node:path";
import { readSource } from "../../grammar/pieces";
import { carriedFile, yearsLater } from "../carry/carried-file";
import type { CarryAsk, NewClosure } from "../carry/carried-term";
import { readClosures } from "../carry/read-closures";
import { leftOutText } from "../output/carry-text";
import { findingList } from "../output/finding-list";
import { safeText } from "../output/safe-text";
import { dateText, parseDate } from "../plan/date";
import { nearest } from "../plan/nearest";
import type { Closure, DateSpan, Term } from "../plan/term";
import { checkSources } from "../workspace/check-sources";
import { whyUnreadable } from "../workspace/load-files";
import { folderOf, joined, relativePath, resolved } from "../workspace/paths";
import type { SourceSet } from "../workspace/source";
import { readOptions, type Typed } from "./options";
import { loadAsked, pathShower } from "./read-plans";
import { CLEAN, FOUND, Misuse, type World } from "./world";

/** What the new file is called while it is only printed. */
const UNNAMED = "new-term.practice";

/** `leadpipe carry`: a new term from an old one. It writes a new file or none; nothing is ever overwritten. */
export async function carry(args: readonly string[], world: World): Promise<number> {
  const typed = readOptions("carry", args, {
    from: "value",
    to: "value",
    term: "value",
    name: "value",
    closed: "value",
    light: "value",
    "no-lesson": "value",
    bookings: "switch",
    out: "value",
  });
  const [word, ...more] = typed.words;
  if (word === undefined || more.length > 0) {
    throw new Misuse("Name one file: leadpipe carry autumn.practice --from 2027-09-06 --to 2027-12-10");
  }
  const dates = datesOf(typed);
  const out = typed.values.get("out");
  const { set } = await loadAsked([word], world);
  const [path = ""] = set.asked;
  const source = set.sources.get(path);
  if (source === undefined) {
    throw new Misuse(`“${word}”: ${set.failures.get(path)?.message ?? "This file cannot be opened."}`);
  }
  const terms = termsOf(checkSources(set, { findings: false }).files[0]?.plan.own.terms ?? [], typed, word);
  const newPath =
    out === undefined ? joined(folderOf(path), UNNAMED) : resolve(world.cwd, out).replaceAll("\\", "/");
  const folder = folderOf(newPath);
  const file = carriedFile(
    source.tree,
    terms.map((term) => ({ term, ask: askFor(term, dates, typed) })),
    {
      used: (written) => relativePath(folder, resolved(folderOf(path), written)),
      old: relativePath(folder, path),
    },
  );
  // The plan itself goes to standard output where no file is asked for, and all that is said of it beside it.
  const say = out === undefined ? world.err : world.out;
  if (out === undefined) world.out(file.text);
  else {
    const why = writeNew(newPath, file.text);
    if (why !== undefined) {
      world.err(`${safeText(out)}: ${why}\n`);
      return FOUND;
    }
    world.out(`${safeText(relative(world.cwd, newPath))} is written.\n`);
  }
  for (const { name, leftOut } of file.terms) say(`\n${leftOutText(name, leftOut, world.paint)}\n`);
  say(`\n${foundIn(set, newPath, file.text, world)}`);
  return CLEAN;
}

function datesOf({ values }: Typed): DateSpan {
  const [from, to] = ["from", "to"].map((option) => {
    const text = values.get(option);
    const day = text === undefined ? undefined : parseDate(text);
    if (day !== undefined) return day;
    throw new Misuse(
      text === undefined
        ? `Say the new term's days: --from 2027-09-06 --to 2027-12-10`
        : `“--${option}” takes a date such as 2027-09-06, not “${text}”.`,
    );
  });
  if (from === undefined || to === undefined || from > to) {
    throw new Misuse("The new term ends before it begins.");
  }
  return { from, to };
}

function termsOf(terms: readonly Term[], { values }: Typed, word: string): readonly Term[] {
  const wanted = values.get("term");
  const chosen = terms.filter((term) => wanted === undefined || term.name === wanted);
  if (chosen.length === 0) {
    const near = nearest(
      wanted ?? "",
      terms.map((term) => term.name),
    );
    throw new Misuse(
      wanted === undefined
        ? `There is no term with dates in “${word}” to carry over.`
        : `There is no term “${wanted}” in “${word}”.${near === undefined ? "" : ` Did you mean “${near}”?`}`,
    );
  }
  if (values.has("name") && chosen.length > 1) {
    throw new Misuse(`“--name” names one term; “${word}” has ${chosen.length}. Choose one with --term.`);
  }
  return chosen;
}

function askFor(term: Term, dates: DateSpan, typed: Typed): CarryAsk {
  const year = (day: number): number => Number(dateText(day).slice(0, 4));
  return {
    name: typed.values.get("name") ?? yearsLater(term.name, year(dates.from) - year(term.dates.from)),
    dates,
    closures: [
      ...closuresIn(typed, "closed", "closed"),
      ...closuresIn(typed, "light", "light"),
      ...closuresIn(typed, "no-lesson", "no lesson"),
    ].sort((a, b) => a.from - b.from),
    bookings: typed.switches.has("bookings"),
  };
}

/** The closures an option lists, and nothing where it is not there. */
function closuresIn({ values }: Typed, option: string, how: Closure["how"]): readonly NewClosure[] {
  const text = values.get(option);
  if (text === undefined) return [];
  const read = readClosures(text, how);
  if ("closures" in read && read.closures.length > 0) return read.closures;
  throw new Misuse(
    `“--${option}” takes days such as "2027-10-25 to 2027-10-30 half-term, 2027-11-11", not “${"unread" in read ? read.unread : text}”.`,
  );
}

/** Writes a file that is not there yet; why it could not, otherwise. */
function writeNew(path: string, text: string): string | undefined {
  try {
    writeFileSync(path, text, { flag: "wx" });
    return undefined;
  } catch (error) {
    const code = error instanceof Error && "code" in error ? error.code : undefined;
    if (code === "EEXIST") return "There is such a file already, and it stays as it is.";
    return code === "ENOENT" ? `There is no folder “${dirname(path)}”.` : whyUnreadable(error);
  }
}

/** What there is to find in the new file, among the files it uses. */
function foundIn(set: SourceSet, path: string, text: string, world: World): string {
  const checked = checkSources({
    ...set,
    asked: [path],
    sources: new Map([...set.sources, [path, { path, text, tree: readSource(text) }]]),
    known: new Set([...set.known, path]),
  });
  const style = { paint: world.paint, showPath: pathShower(world.cwd) };
  const said = checked.files
    .filter((file) => file.path === path)
    .flatMap((file) => findingList(file, file.findings, checked.homes, style));
  return said.length === 0
    ? "Nothing is found in the new term.\n"
    : `Found in the new term:\n\n${said.map((each) => `${each}\n`).join("")}`;
}
