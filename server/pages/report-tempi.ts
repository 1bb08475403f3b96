import type { PlayerTerm } from "../days/day";
import { valueName } from "../music/rhythm";
import { tempoGrowth } from "../totals/tempo-growth";
import { across, chart, everyNth, pair, rounded } from "./chart";
import { figuresTable } from "./figures-table";
import { html, type Markup } from "./markup";

const ROW = 26;
const NAMES = 150;
const LONGEST_NAME = 22;

/** How the tempo of each exercise grows through the term. */
export function tempiPart(id: string, term: PlayerTerm): Markup {
  const all = tempoGrowth(term);
  const growing = all.filter(({ weeks }) => new Set(weeks.filter((each) => each !== undefined)).size > 1);
  const { x, width } = across(term.weeks, NAMES);
  const rows = growing.map(({ exercise, weeks }, row) => {
    const asked = weeks.filter((each) => each !== undefined);
    const [least, most] = [Math.min(...asked), Math.max(...asked)];
    const y = (bpm: number): number =>
      rounded(row * ROW + 22 - ((bpm - least) / Math.max(1e-9, most - least)) * 16);
    const name = exercise.length > LONGEST_NAME ? `${exercise.slice(0, LONGEST_NAME - 1)}…` : exercise;
    const dots: Markup[] = [];
    let path = "";
    for (const [i, bpm] of weeks.entries()) {
      if (bpm === undefined) continue;
      const at = `${rounded(x(i) + width / 2)} ${y(bpm)}`;
      // A week without the exercise parts the line.
      path += weeks[i - 1] === undefined ? `M${at}` : `L${at}`;
      dots.push(html`<circle class="dot" cx="${rounded(x(i) + width / 2)}" cy="${y(bpm)}" r="2.5"/>`);
    }
    return html`<line class="grid" x1="0" x2="474" y1="${(row + 1) * ROW}" y2="${(row + 1) * ROW}"/><text x="0" y="${row * ROW + 17}">${name}</text><path class="line" d="${path}"/>${dots}`;
  });
  const nth = everyNth(term.weeks, 30);
  const weekNumbers = Array.from({ length: term.weeks }, (_, i) =>
    i % nth === 0
      ? html`<text x="${rounded(x(i) + width / 2)}" y="${growing.length * ROW + 15}" text-anchor="middle">${i + 1}</text>`
      : undefined,
  );
  const still = all.length - growing.length;
  const table = figuresTable({
    caption: "Beats to the minute of each week, the fastest that is asked",
    columns: ["Exercise", "Counted", ...Array.from({ length: term.weeks }, (_, i) => String(i + 1))],
    words: [0],
    rows: all.map(({ exercise, beat, weeks }) => ({
      head: exercise,
      cells: [valueName(beat), ...weeks.map((bpm) => (bpm === undefined ? "–" : String(rounded(bpm))))],
    })),
  });
  const note = `Each line rises from the exercise's slowest tempo to its fastest. ${still === 0 ? "" : `${still} ${still === 1 ? "exercise keeps" : "exercises keep"} one tempo and ${still === 1 ? "is" : "are"} in the table alone.`}`;
  if (all.length === 0) return html``;
  const picture = chart(
    id,
    {
      title: "Tempi through the weeks",
      says: `A line for each of ${growing.length} exercises whose tempo changes, from the first taught week to the last.`,
      height: Math.max(1, growing.length) * ROW + 20,
    },
    [...rows, html`${weekNumbers}`],
  );
  return html`<h3>Tempo growth</h3>
<p class="note">${note}</p>
${growing.length === 0 ? table : pair(picture, table, term.weeks + 2)}`;
}
