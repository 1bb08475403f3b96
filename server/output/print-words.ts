/** What is said of pages that were made or could not be: the same on the command line and in an editor. */
import { dateText, mondayOf, spokenDate } from "../plan/date";
import { counted } from "./numbers";
import type { SheetsAsk } from "./packet-jobs";
import type { Printed } from "./packet-print";

/** There is no sheet for anybody; `who` is the one player asked about. */
export function nothingWords(who: string | undefined, when: SheetsAsk["when"]): string {
  return `There is nothing to practise for ${who ?? "anybody"} ${whenWords(when)}.`;
}

/** Terms were asked for, and there are none. */
export const NO_TERM = "There is no term here to print from.";

/** What is said of a packet that would be empty. */
export function emptyPacketWords(ofTerm: boolean): string {
  return ofTerm
    ? "There is nothing to practise in this term, and so nothing to put into a packet."
    : "There is no exercise in these files to print.";
}

function whenWords(when: SheetsAsk["when"]): string {
  switch (when.kind) {
    case "day":
      return `on ${spokenDate(when.date)}`;
    case "week of":
      return `in the week of ${dateText(mondayOf(when.date))}`;
    case "week":
      return `in week ${when.number}`;
  }
}

/** Of a plan from which pages are printed although something in it is wrong. */
export function errorsWords(file: string, errors: number): string {
  return `${file} has ${counted(errors, "error")}; the pages hold what could be read.`;
}

/** So many letters are named, and of more only how many there are. */
const MOST_LETTERS = 12;

/** Letters that no face of the pages has; undefined where all are there. */
export function missingWords(missing: Printed["missing"]): string | undefined {
  if (missing.length === 0) return undefined;
  const letters = missing.slice(0, MOST_LETTERS).join(" ");
  return `The faces of these pages lack ${missing.length === 1 ? "a letter" : `${missing.length} letters`}, for which an empty box stands: ${letters}`;
}

/** Of a picture that could not be drawn. */
export function failedWords(title: string): string {
  return `${title}: the engraver could not read this music.`;
}

/** Days that did not fit a page: which one, or how many; undefined where all did. */
export function overlongWords(overlong: Printed["overlong"]): string | undefined {
  const [first] = overlong;
  if (first === undefined) return undefined;
  const most = Math.max(...overlong.map((each) => each.pages));
  if (overlong.length > 1) return `${overlong.length} days take more than a page each, at most ${most}`;
  const when = first.wanted.kind === "day" ? spokenDate(first.wanted.of.day.date) : "the week";
  return `${when} takes ${counted(most, "page")}`;
}
