import { carriedFile, yearsLater } from "../carry/carried-file";
import type { CarryAsk, LeftOut } from "../carry/carried-term";
import { readClosures } from "../carry/read-closures";
import { fileNames } from "../output/file-names";
import { LEFT_OUT_STYLE, leftOutBody } from "../pages/left-out";
import { REPORT_STYLE } from "../pages/report-style";
import { dateText, LAST_YEAR, parseDate } from "../plan/date";
import type { Closure, Term } from "../plan/term";
import type {
  CarryAnswers,
  CarryCheckParams,
  CarryChoicesResult,
  CarryParams,
  CarryResult,
} from "../protocol/year-requests";
import type { Checked, CheckedFile } from "../workspace/check-sources";
import { fileName } from "../workspace/paths";
import { fileOf, offsetOf } from "./lines-of";
import { termAt } from "./term-at";

/** Days from a term to the one that is proposed in its place: 52 weeks, so that weekdays stay. */
const A_YEAR = 364;

/** What is asked before a term is begun from the one at a place. Undefined where there is none. */
export function carryChoices(
  checked: Checked,
  path: string,
  { position }: Pick<CarryParams, "position">,
): NonNullable<CarryChoicesResult> | undefined {
  const found = termIn(checked, path, position);
  if (found === undefined) return undefined;
  const { name, dates, closures, declaration } = found.term;
  const onSingleDays = (declaration.block?.items ?? []).filter(
    (item) =>
      (item.kind === "lesson" || item.kind === "booked" || item.kind === "short days") &&
      item.days.kind === "dates",
  );
  return {
    term: name,
    was: { first: dateText(dates.from), last: dateText(dates.to) },
    first: dateText(dates.from + A_YEAR),
    last: dateText(dates.to + A_YEAR),
    closures: closures.map(closureText).join(", "),
    bookings: onSingleDays.length,
  };
}

/** What is wrong with an answer, in a teacher's words; undefined where nothing is. */
export function carryCheck({ asked, answers }: CarryCheckParams): string | undefined {
  const { first, last, closures } = answers;
  switch (asked) {
    case "first":
      return dayOf(first) === undefined ? notADay : undefined;
    case "last": {
      const [from, to] = [dayOf(first), dayOf(last)];
      if (to === undefined) return notADay;
      return from !== undefined && to < from ? "The new term ends before it begins." : undefined;
    }
    case "closures": {
      const read = readClosures(closures, "closed");
      return "unread" in read
        ? `Days such as 2027-10-25 to 2027-10-30 half-term, light 2027-11-11; not “${read.unread}”.`
        : undefined;
    }
  }
}

const notADay = "A date such as 2027-09-06: year, month, day.";

/**
 * A new file with the term at a place laid over a new calendar, to lie in the same folder. Nothing is written.
 */
export function carriedOver(
  checked: Checked,
  path: string,
  { position, answers }: Pick<CarryParams, "position" | "answers">,
): CarryResult {
  const found = termIn(checked, path, position);
  if (found === undefined) return { trouble: "There is no term with dates here to begin a new one from." };
  const { file, term } = found;
  const ask = askOf(term, answers);
  if ("trouble" in ask) return ask;
  const carried = carriedFile(file.tree, [{ term, ask }], {
    used: (written) => written,
    old: fileName(path),
  });
  const leftOut = carried.terms.flatMap((each) => each.leftOut);
  const [name = ""] = fileNames([ask.name], "");
  return {
    name,
    text: carried.text,
    term: ask.name,
    leftOut:
      leftOut.length === 0
        ? undefined
        : {
            title: "What was left out",
            style: REPORT_STYLE + LEFT_OUT_STYLE,
            body: leftOutBody(ask.name, leftOut.map(reasoned)).text,
            file: undefined,
          },
  };
}

function termIn(
  checked: Checked,
  path: string,
  position: CarryParams["position"],
): { readonly file: CheckedFile; readonly term: Term } | undefined {
  const file = fileOf(checked, path);
  const term = file === undefined ? undefined : termAt(file, offsetOf(file, position));
  return file === undefined || term === undefined ? undefined : { file, term };
}

function askOf(term: Term, answers: CarryAnswers): CarryAsk | { readonly trouble: string } {
  for (const asked of ["first", "last", "closures"] as const) {
    const trouble = carryCheck({ asked, answers });
    if (trouble !== undefined) return { trouble };
  }
  const [from, to] = [dayOf(answers.first), dayOf(answers.last)];
  const read = readClosures(answers.closures, "closed");
  if (from === undefined || to === undefined || "unread" in read) return { trouble: notADay };
  const year = (day: number): number => Number(dateText(day).slice(0, 4));
  return {
    name: yearsLater(term.name, year(from) - year(term.dates.from)),
    dates: { from, to },
    closures: read.closures.toSorted((a, b) => a.from - b.from),
    bookings: answers.bookings,
  };
}

/** A day that a plan may name; with room for the taught weeks that are counted after it. */
function dayOf(text: string): number | undefined {
  const day = parseDate(text.trim());
  return day === undefined || Number(text.trim().slice(0, 4)) >= LAST_YEAR ? undefined : day;
}

function closureText({ how, from, to, reason }: Closure): string {
  const span = from === to ? dateText(from) : `${dateText(from)} to ${dateText(to)}`;
  // A comma would part it in two.
  const said = reason === undefined ? "" : ` ${reason.replaceAll(",", "")}`;
  return `${how === "closed" ? "" : `${how} `}${span}${said}`;
}

const WHY: { readonly [why in LeftOut["why"]]: string } = {
  closure: "an old closure; the new ones were asked for",
  booking: "on a single day of the old calendar",
  illness: "nobody's illness is carried over",
  "no such day": "the new calendar has no such day",
};

function reasoned({ line, why }: LeftOut): { readonly line: string; readonly why: string } {
  return { line, why: WHY[why] };
}
