import type { PlayerTerm } from "../days/day";
import { type Placement, placementName } from "../days/placement";
import { tonicClass } from "../music/key";
import { alterSign, stepLetter } from "../music/pitch";
import type { Coverage } from "../totals/coverage";
import { across, chart, pair, rounded } from "./chart";
import { figuresTable } from "./figures-table";
import { html, type Markup } from "./markup";

const ROW = 17;
const NAMES = 150;
const LONGEST_NAME = 22;
/** Room for the names of keys that lie side by side; where they would touch they stand upright. */
const HEAD = 18;
/** About as much as a letter takes. */
const LETTER = 7;

/** A column: a key or a combination under its short name. */
interface Column {
  readonly name: string;
  readonly short: string;
  readonly order: number;
}

/** How many times through each exercise is asked for in each key, and in each valve combination. */
export function keysPart(id: string, term: PlayerTerm, coverage: Coverage): Markup {
  const columns = columnsOf(term);
  const parts = [
    {
      id: `${id}-keys`,
      title: "Exercises and keys",
      of: columns.filter((each) => each.order < COMBINATIONS),
    },
    {
      id: `${id}-valves`,
      title: "Exercises and valve combinations",
      of: columns.filter((each) => each.order >= COMBINATIONS),
    },
  ];
  return html`${parts.map((part) => (part.of.length === 0 ? undefined : grid(part.id, part.title, part.of, coverage)))}`;
}

/** Combinations come after all keys. */
const COMBINATIONS = 1000;

function columnsOf(term: PlayerTerm): readonly Column[] {
  const columns = new Map<string, Column>();
  for (const day of term.days) {
    for (const session of day.sessions) {
      for (const { passes } of session.items) {
        for (const { placement } of passes) {
          const name = placementName(placement);
          if (name !== "" && !columns.has(name)) columns.set(name, columnOf(name, placement));
        }
      }
    }
  }
  return [...columns.values()].sort((a, b) => a.order - b.order || (a.name < b.name ? -1 : 1));
}

function columnOf(name: string, { key, combination, semitones }: Placement): Column {
  if (combination !== undefined || key === undefined) {
    const short = combination === undefined || combination.name === "0" ? "open" : combination.name;
    return { name, short, order: COMBINATIONS - semitones };
  }
  const tonic = `${stepLetter(key.step)}${alterSign(key.alter)}`;
  const short = key.mode === "major" ? tonic : name;
  // Majors from C upwards, then the others likewise.
  return { name, short, order: tonicClass(key) + (key.mode === "major" ? 0 : 100) };
}

function grid(id: string, title: string, columns: readonly Column[], { keys }: Coverage): Markup {
  const rows = [...keys].filter(([, here]) => columns.some((column) => here.has(column.name)));
  const most = Math.max(1, ...rows.flatMap(([, here]) => columns.map((each) => here.get(each.name) ?? 0)));
  const { x, width } = across(columns.length, NAMES);
  const standing = columns.some((column) => column.short.length * LETTER > width);
  const top = standing ? Math.max(...columns.map((each) => each.short.length)) * LETTER + 8 : HEAD;
  const drawn = rows.map(([exercise, here], row) => {
    const y = top + row * ROW;
    const name = exercise.length > LONGEST_NAME ? `${exercise.slice(0, LONGEST_NAME - 1)}…` : exercise;
    const cells = columns.map((column, i) => {
      const times = here.get(column.name);
      if (times === undefined) return undefined;
      // The area of the disc tells how often.
      const radius = rounded(1.5 + (ROW / 2 - 2) * Math.sqrt(times / most));
      return html`<circle class="dot" cx="${rounded(x(i) + width / 2)}" cy="${y + ROW / 2}" r="${radius}"/>`;
    });
    return html`<line class="grid" x1="0" x2="474" y1="${y + ROW}" y2="${y + ROW}"/><text x="0" y="${y + 13}">${name}</text>${cells}`;
  });
  const heads = columns.map((column, i) => {
    const middle = rounded(x(i) + width / 2);
    return standing
      ? html`<text transform="translate(${rounded(middle + 4)} ${top - 5}) rotate(-90)">${column.short}</text>`
      : html`<text x="${middle}" y="12" text-anchor="middle">${column.short}</text>`;
  });
  const picture = chart(
    id,
    {
      title,
      says: `A row for each of ${rows.length} exercises and a disc for each of the places it is played in, the larger the more often, up to ${most} times through.`,
      height: top + rows.length * ROW + 4,
    },
    [html`${heads}`, html`${drawn}`],
  );
  const table = figuresTable({
    caption: `${title}: times through${columns.some((each) => each.short !== each.name && each.order < COMBINATIONS) ? " (a letter alone is a major key)" : ""}`,
    columns: ["Exercise", ...columns.map((column) => column.short)],
    rows: rows.map(([exercise, here]) => ({
      head: exercise,
      cells: columns.map((column) => String(here.get(column.name) ?? "–")),
    })),
  });
  return html`<h3>${title}</h3>
${pair(picture, table, columns.length + 1)}`;
}
