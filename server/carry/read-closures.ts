import { parseDate } from "../plan/date";
import type { Closure } from "../plan/term";
import type { NewClosure } from "./carried-term";

/** What was read of a list of closures, or the first part of it that could not be. */
export type ReadClosures = { readonly closures: readonly NewClosure[] } | { readonly unread: string };

/**
 * Reads `2027-10-25 to 2027-10-30 half-term, 2027-11-11`: spans parted by commas, each with its reason. A part may
 * begin with what it is, as a plan has it (`closed`, `light`, `no lesson`); otherwise it is what `usual` says.
 */
export function readClosures(text: string, usual: Closure["how"]): ReadClosures {
  const closures: NewClosure[] = [];
  for (const part of text.split(",").map((each) => each.trim())) {
    if (part === "") continue;
    const match =
      /^(?:(closed|light|no lesson)\s+)?(\d+-\d+-\d+)(?:\s+to\s+(\d+-\d+-\d+))?(?:\s+([^{}]+))?$/.exec(part);
    const [, kind, first = "", last, said] = match ?? [];
    const from = parseDate(first);
    const to = last === undefined ? from : parseDate(last);
    // A reason may stand in quotes, as in a plan; others would end it.
    const reason = said?.trim().replace(/^"(.*)"$/, "$1");
    if (from === undefined || to === undefined || from > to || reason?.includes('"') === true) {
      return { unread: part };
    }
    closures.push({ how: howOf(kind) ?? usual, from, to, reason });
  }
  return { closures };
}

function howOf(word: string | undefined): Closure["how"] | undefined {
  switch (word) {
    case "closed":
    case "light":
    case "no lesson":
      return word;
    default:
      return undefined;
  }
}
