import { fileNames } from "../output/file-names";
import {
  joinedJobs,
  type Pages,
  type PrintJob,
  packetJob,
  type SheetsAsk,
  sheetJobs,
} from "../output/packet-jobs";
import { emptyPacketWords, errorsWords, NO_TERM, nothingWords } from "../output/print-words";
import type { AskedTerm } from "../pages/sheet-choice";
import { longDate } from "../pages/sheet-words";
import { dateText, mondayOf, parseDate, spokenDate } from "../plan/date";
import { playersOf } from "../plan/plan";
import type { Term } from "../plan/term";
import type { PrintParams } from "../protocol/print-requests";
import type { Checked, CheckedFile } from "../workspace/check-sources";
import { fileOf } from "./lines-of";
import { playerTerms } from "./player-terms";

/** Pages that are still to be made, by the names of their files without an ending. */
export type PrintPlan =
  | {
      readonly files: readonly { readonly name: string; readonly pages: Pages }[];
      /** What is wrong in the plans they are made from. */
      readonly remarks: readonly string[];
    }
  | { readonly trouble: string };

/** What is to be printed goes to which file; or why there is nothing to print. */
export function printPlan(
  checked: Checked,
  path: string,
  params: Omit<PrintParams, "uri" | "job">,
): PrintPlan {
  const file = fileOf(checked, path);
  if (file === undefined) return { trouble: NO_TERM };
  return params.what === "packet" ? packetPlan(file, params) : sheetsPlan(checked, file, params);
}

type Wish = Omit<PrintParams, "uri" | "job">;

function sheetsPlan(checked: Checked, file: CheckedFile, wish: Wish): PrintPlan {
  const date = parseDate(wish.date ?? "");
  if (date === undefined) return { trouble: "Say for which day." };
  const when: SheetsAsk["when"] = wish.what === "day" ? { kind: "day", date } : { kind: "week of", date };
  const files = wish.of === "studio" ? checked.files : [file];
  const sources = files
    .map((each) => ({ file: each, terms: termsMeant(each, wish).filter((term) => meets(term, when)) }))
    .filter(({ terms }) => terms.length > 0);
  if (files.every((each) => termsMeant(each, wish).length === 0)) return { trouble: NO_TERM };
  const terms = sources.flatMap((each) => each.terms.flatMap((term) => askedTerms(each.file, term, wish)));
  const jobs = sheetJobs({ terms, when, days: true, fingerings: false });
  if (jobs.length === 0) return { trouble: nothingWords(wish.player, when) };
  const remarks = errorsIn(sources.map((each) => each.file));
  const [only] = jobs;
  if (wish.apart || only === undefined || jobs.length === 1) return { files: named(jobs), remarks };
  const whose = (wish.of === "term" ? wish.term : undefined) ?? file.plan.settings.name ?? "The studio";
  const [short, long] =
    when.kind === "day"
      ? [spokenDate(date), longDate(date)]
      : [`week of ${dateText(mondayOf(date))}`, `week of ${longDate(mondayOf(date))}`];
  const pages = joinedJobs(jobs, `${whose}, ${long}`);
  return { files: named([{ name: `${whose}, ${short}`, pages }]), remarks };
}

function packetPlan(file: CheckedFile, wish: Wish): PrintPlan {
  const ofTerm = wish.of === "term";
  const terms = ofTerm ? termsMeant(file, wish) : [];
  if (ofTerm && terms.length === 0) return { trouble: NO_TERM };
  const asked = terms.flatMap((term) => askedTerms(file, term, wish));
  const job = (own: readonly AskedTerm[], single: boolean): readonly PrintJob[] => {
    if (ofTerm && own.length === 0) return [];
    const made = packetJob({
      plans: [file.plan],
      terms: own,
      player: single ? own[0]?.term.player : undefined,
      term: ofTerm ? wish.term : undefined,
      // What is travelled, only a term says.
      keys: !ofTerm && wish.keys === "travelled" ? "home" : wish.keys,
      title: undefined,
      fingerings: false,
    });
    return made === undefined ? [] : [made];
  };
  const jobs =
    wish.apart && wish.player === undefined
      ? asked.flatMap((each) => job([each], true))
      : job(asked, wish.player !== undefined);
  if (jobs.length === 0) return { trouble: emptyPacketWords(ofTerm) };
  return { files: named(jobs), remarks: errorsIn([file]) };
}

/** The terms of a file that are meant: the one of a name, or all. */
function termsMeant({ plan }: CheckedFile, { of, term }: Wish): readonly Term[] {
  return of === "studio" ? plan.own.terms : plan.own.terms.filter(({ name }) => name === term);
}

/** Whether any day of a term can be meant: others need not be worked out. */
function meets({ dates }: Term, when: SheetsAsk["when"]): boolean {
  if (when.kind === "week") return true;
  const [from, to] =
    when.kind === "day" ? [when.date, when.date] : [mondayOf(when.date), mondayOf(when.date) + 6];
  return dates.from <= to && dates.to >= from;
}

function askedTerms({ plan }: CheckedFile, term: Term, { player }: Wish): readonly AskedTerm[] {
  // A term that the player does not play is not worked out for the others.
  if (player !== undefined && !playersOf(plan, term).some(({ name }) => name === player)) return [];
  return playerTerms(plan, term)
    .filter((each) => player === undefined || each.player.name === player)
    .map((each) => ({ plan, term: each }));
}

function errorsIn(files: readonly CheckedFile[]): readonly string[] {
  return files.flatMap(({ path, findings }) => {
    const errors = findings.filter(({ severity }) => severity === "error").length;
    return errors === 0 ? [] : [errorsWords(`“${path.split("/").at(-1)}”`, errors)];
  });
}

function named(jobs: readonly PrintJob[]): readonly { readonly name: string; readonly pages: Pages }[] {
  const names = fileNames(
    jobs.map(({ name }) => name),
    "",
  );
  return jobs.map(({ name, pages }, index) => ({ name: names[index] ?? name, pages }));
}
