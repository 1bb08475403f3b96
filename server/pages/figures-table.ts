import { html, type Markup } from "./markup";

export interface Cell {
  readonly text: string;
  /** Over its budget. */
  readonly over?: boolean;
}

/** A table of numbers; each row begins with what it is about. It may be moved sideways where it is too wide. */
export function figuresTable(ask: {
  readonly caption: string;
  readonly columns: readonly string[];
  readonly rows: readonly { readonly head: string; readonly cells: readonly (string | Cell)[] }[];
  /** Columns that hold words, counted from 0 after the head. */
  readonly words?: readonly number[];
}): Markup {
  const { caption, columns, rows, words = [] } = ask;
  const heads = columns.map(
    (title, i) =>
      html`<th scope="col"${words.includes(i - 1) || i === 0 ? html` class="words"` : undefined}>${title}</th>`,
  );
  const cell = (each: string | Cell, i: number): Markup => {
    const { text, over = false } = typeof each === "string" ? { text: each } : each;
    if (over) return html`<td class="over">${text}</td>`;
    return words.includes(i) ? html`<td class="words">${text}</td>` : html`<td>${text}</td>`;
  };
  const lines = rows.map(
    ({ head, cells }) => html`<tr><th scope="row">${head}</th>${cells.map(cell)}</tr>\n`,
  );
  return html`<div class="scroll" role="group" tabindex="0" aria-label="${caption}"><table><caption>${caption}</caption>
<thead><tr>${heads}</tr></thead>
<tbody>
${lines}</tbody></table></div>`;
}
