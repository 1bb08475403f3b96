import { quoted } from "../rules/words";
import { figuresTable } from "./figures-table";
import { html, type Markup } from "./markup";

/** What a new term does not have of the old one, line by line with the reason. */
export function leftOutBody(
  term: string,
  lines: readonly { readonly line: string; readonly why: string }[],
): Markup {
  const table = figuresTable({
    caption: "Lines of the old term",
    columns: ["Line", "Why it was left out"],
    words: [0],
    rows: lines.map(({ line, why }) => ({ head: line, cells: [why] })),
  });
  return html`<h1>What was left out</h1>
<p>These lines of the old term are not in ${quoted(term)}. What you still want of them, write into the new plan.</p>
${table}`;
}
