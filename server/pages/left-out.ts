import { quoted } from "../rules/words";
import { html, type Markup } from "./markup";

/** What a new term does not have of the old one, line by line with the reason. */
export function leftOutBody(
  term: string,
  lines: readonly { readonly line: string; readonly why: string }[],
): Markup {
  const items = lines.map(({ line, why }) => html`<dt>${line}</dt><dd>${why}</dd>\n`);
  return html`<h1>What was left out</h1>
<p>These lines of the old term are not in ${quoted(term)}. What you still want of them, write into the new plan.</p>
<dl>
${items}</dl>`;
}

/** Lines as they were written, the reasons quieter below them. */
export const LEFT_OUT_STYLE = `
dl { margin: 1rem 0; max-width: 60rem; }
dt { font-family: var(--vscode-editor-font-family, monospace); overflow-wrap: anywhere; margin-top: .6rem; }
dd { margin: 0 0 0 1.5rem; color: var(--quiet); font-size: .9rem; }
`;
