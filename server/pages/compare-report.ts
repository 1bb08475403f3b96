import {
  barWords,
  dueWords,
  goalsMoved,
  goalWords,
  isAnotherBalance,
  keysByExercise,
  keyWords,
  lineWords,
  practisedWords,
  shareWords,
  tempoWords,
} from "../compare/change-words";
import type {
  AreaChange,
  Both,
  Comparison,
  Either,
  PracticeChange,
  TermChange,
  WeekChange,
} from "../compare/comparison";
import { isEmpty } from "../compare/comparison";
import { spokenDate } from "../plan/date";
import type { Finding } from "../rules/finding";
import { minutes, quoted } from "../rules/words";
import { across, BOTTOM, chart, everyNth, pair, rounded, upright } from "./chart";
import { figuresTable } from "./figures-table";
import { html, Markup } from "./markup";
import { REPORT_STYLE } from "./report-style";

export interface CompareAsk {
  readonly comparison: Comparison;
  /** What the two sides are called. */
  readonly sides: Both<string>;
  /** What of them could not be read, a sentence each. */
  readonly unread: readonly string[];
  /** Rewritten exercises as they look, by their names of today: pictures (SVG) that name themselves. */
  readonly pictures: ReadonlyMap<string, Either<string>>;
  readonly caution: string;
}

/** A comparison as a page that needs nothing beside itself: what a teacher reads, with charts and notation. */
export function compareReport(ask: CompareAsk): string {
  const page = html`<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<title>What differs: ${titleOf(ask.sides)}</title>
<style>${new Markup(COMPARE_STYLE)}</style>
</head>
<body>
<main>
${compareBody(ask)}
</main>
</body>
</html>
`;
  return page.text;
}

/** What stands on the page of a comparison, for pages that have a head of their own and take `COMPARE_STYLE` into it. */
export function compareBody({ comparison, sides, unread, pictures, caution }: CompareAsk): Markup {
  return html`<h1>What differs</h1>
<p>${titleOf(sides)}. Weeks stand side by side by taught week.</p>
${list(unread)}
${isEmpty(comparison) ? html`<p>These plans mean the same.</p>` : comparePart("c", comparison, pictures)}
<p class="note">${caution}</p>`;
}

function titleOf({ before, after }: Both<string>): string {
  return `${after}, beside ${before}`;
}

/** Old music on the left, new on the right; below each other where there is no room. */
export const COMPARE_STYLE = `${REPORT_STYLE}
.notation { display: grid; grid-template-columns: repeat(auto-fit, minmax(min(100%, 24rem), 1fr)); gap: .5rem 1.5rem; margin: .5rem 0 1rem; }
figure { margin: 0; }
figcaption { font-style: italic; font-size: .85rem; }
.before { fill: var(--before); }
@media print { h2 { break-before: auto; } figure { break-inside: avoid; } }
`;

/** The differences as a part of a page. */
export function comparePart(
  id: string,
  { book, players, terms, findings }: Comparison,
  pictures: CompareAsk["pictures"],
): Markup {
  const rewritten = book.rewritten.map(({ exercise, bars, lines }) => {
    const said = [...bars.map(barWords), ...lines.map(lineWords)].join("; ");
    return html`<li>${quoted(exercise.after)}: ${said}${notation(pictures.get(exercise.after))}</li>\n`;
  });
  const bookLines = [
    ...several("new", book.added),
    ...several("gone", book.dropped),
    ...book.renamed.map(({ before, after }) => `${quoted(before)} is called ${quoted(after)} now`),
  ];
  const playerLines = [
    ...several("new", players.added),
    ...several("gone", players.dropped),
    ...players.changed.map(
      ({ player, figures }) => `${quoted(player)}: ${figures.map(lineWords).join("; ")}`,
    ),
  ];
  return html`${section("The exercise book", [list(bookLines), rewritten.length === 0 ? undefined : html`<ul>\n${rewritten}</ul>`])}
${section("Players", [list(playerLines)])}
${section("Terms", [list([...several("new", terms.added), ...several("gone", terms.dropped)])])}
${terms.changed.map((term, i) => termPart(`${id}-${i}`, term))}
${section("Findings", [
  list([
    ...findings.gained.map((each) => `new: ${findingWords(each)}`),
    ...findings.lost.map((each) => `gone: ${findingWords(each)}`),
    ...findings.standsNow.map((each) => `stands now: ${findingWords(each)}`),
    ...findings.standsNoMore.map((each) => `stands no more: ${findingWords(each)}`),
  ]),
])}`;
}

function findingWords({ severity, code, message, standing }: Finding): string {
  return `${severity} ${code}: ${message}${standing === undefined ? "" : ` (stands: ${standing})`}`;
}

function several(word: string, names: readonly string[]): readonly string[] {
  return names.length === 0 ? [] : [`${word}: ${names.map(quoted).join(", ")}`];
}

/** A list of sentences; nothing where there is none. */
function list(lines: readonly string[]): Markup | undefined {
  return lines.length === 0 ? undefined : html`<ul>\n${lines.map((line) => html`<li>${line}</li>\n`)}</ul>`;
}

/** A heading with what it heads; nothing where that is nothing. */
function section(title: string, parts: readonly (Markup | undefined)[]): Markup | undefined {
  return parts.every((part) => part === undefined) ? undefined : html`<h2>${title}</h2>\n${parts}`;
}

function notation(pictures: Either<string> | undefined): Markup | undefined {
  if (pictures === undefined) return undefined;
  const figure = (caption: string, picture: string | undefined): Markup | undefined =>
    picture === undefined
      ? undefined
      : html`<figure><figcaption>${caption}</figcaption>${new Markup(picture)}</figure>`;
  return html`<div class="notation">${figure("before", pictures.before)}${figure("after", pictures.after)}</div>`;
}

function termPart(id: string, term: TermChange): Markup {
  const { before, after } = term.term;
  const { fresh, gone, moved } = goalsMoved(term.goals);
  const lines: string[] = [];
  if (term.dates !== undefined) {
    const span = ({ from, to }: { readonly from: number; readonly to: number }): string =>
      `${spokenDate(from)} to ${spokenDate(to)}`;
    lines.push(`${span(term.dates.after)}, was ${span(term.dates.before)}`);
  }
  if (term.taughtWeeks !== undefined) {
    lines.push(`${term.taughtWeeks.after} taught weeks, were ${term.taughtWeeks.before}`);
  }
  lines.push(...fresh.map((goal) => `new goal ${goalWords(goal)}`));
  lines.push(...gone.map((goal) => `goal gone: ${goalWords(goal)}`));
  lines.push(...moved.map(({ goal, was }) => `goal ${goalWords(goal)}, was ${dueWords(was)}`));
  lines.push(
    ...several("players new to it", term.newPlayers),
    ...several("players no more in it", term.formerPlayers),
  );
  return html`<h2>${before === after ? after : `${after}, beside ${before}`}</h2>
${list(lines)}
${term.practice.map((change, i) => practicePart(`${id}-${i}`, change))}`;
}

function practicePart(id: string, change: PracticeChange): Markup {
  const words = (title: string, lines: readonly string[]): Markup | undefined =>
    lines.length === 0 ? undefined : html`<h4>${title}</h4>\n${list(lines)}`;
  const areas = change.areas.filter(({ before, after }) => isAnotherBalance(before.share, after.share));
  return html`<h3>For ${change.players.join(", ")}</h3>
${words(
  "Taken up",
  change.takenUp.map((each) => `${quoted(each.exercise)}: ${practisedWords(each)}`),
)}
${words(
  "Given up",
  change.givenUp.map((each) => `${quoted(each.exercise)}: ${practisedWords(each)}`),
)}
${areas.length === 0 ? undefined : areasTable(areas)}
${words(
  "Keys",
  [...keysByExercise(change.keys)].map(([name, here]) => `${quoted(name)}: ${here.map(keyWords).join("; ")}`),
)}
${words(
  "Tempi",
  change.tempi.map((each) => `${quoted(each.exercise.after)}: ${tempoWords(each)}`),
)}
${change.weeks.length === 0 ? undefined : weeksPart(id, change.weeks)}`;
}

function areasTable(areas: readonly AreaChange[]): Markup {
  const table = figuresTable({
    caption: "Share of the clock time, before and after",
    columns: ["Area", "Before", "After", "Before, time", "After, time"],
    rows: areas.map(({ area, before, after }) => ({
      head: area,
      cells: [shareWords(before.share), shareWords(after.share), minutes(before.clock), minutes(after.clock)],
    })),
  });
  return html`<h4>Areas in a new balance</h4>\n${table}`;
}

const MEASURES = [
  { key: "clock", title: "Clock time" },
  { key: "upper", title: "Upper register" },
] as const;

/** Minutes and upper of each week, before and after, as one chart each over one table. */
function weeksPart(id: string, weeks: readonly WeekChange[]): Markup {
  const all = ["clock", "playing", "upper"] as const;
  const cell = (seconds: number | undefined): string => (seconds === undefined ? "–" : minutes(seconds));
  const table = figuresTable({
    caption: "Each week before and after",
    columns: ["Week", "Clock before", "after", "Playing before", "after", "Upper before", "after"],
    rows: weeks.map(({ week, before, after }) => ({
      head: String(week),
      cells: all.flatMap((key) => [cell(before?.[key]), cell(after?.[key])]),
    })),
  });
  // First-years have no upper register to compare.
  const charts = MEASURES.filter(({ key }) =>
    weeks.some(({ before, after }) => (before?.[key] ?? 0) + (after?.[key] ?? 0) > 0),
  ).map(({ key, title }) => weekChart(`${id}-${key}`, title, weeks, key));
  return html`<h4>Week by week</h4>
${pair(html`<div class="chart">${charts}</div>`, table, 7)}`;
}

const HEIGHT = 180;

function weekChart(id: string, title: string, weeks: readonly WeekChange[], key: "clock" | "upper"): Markup {
  const highest = Math.max(
    1,
    ...weeks.flatMap(({ before, after }) => [before?.[key] ?? 0, after?.[key] ?? 0]),
  );
  const scale = upright(highest, HEIGHT, "seconds");
  const { x, width } = across(weeks.length);
  const nth = everyNth(weeks.length, 22);
  const bar = (seconds: number | undefined, from: number, kind: string): Markup | undefined =>
    seconds === undefined || seconds <= 0
      ? undefined
      : html`<rect class="${kind}" x="${rounded(from)}" y="${scale.y(seconds)}" width="${rounded(width * 0.38)}" height="${rounded(scale.y(0) - scale.y(seconds))}"/>`;
  const bars = weeks.map(({ week, before, after }, i) => {
    const name =
      i % nth === 0
        ? html`<text x="${rounded(x(i) + width / 2)}" y="${HEIGHT - BOTTOM + 15}" text-anchor="middle">${week}</text>`
        : undefined;
    return html`${bar(before?.[key], x(i) + width * 0.1, "before")}${bar(after?.[key], x(i) + width * 0.5, "bar")}${name}`;
  });
  const sum = (side: "before" | "after"): number =>
    weeks.reduce((all, each) => all + (each[side]?.[key] ?? 0), 0);
  return chart(
    id,
    {
      title: `${title} of each week, before and after`,
      says: `Two bars for each of ${weeks.length} weeks. Together ${minutes(sum("before"))} before and ${minutes(sum("after"))} after.`,
      height: HEIGHT,
    },
    [
      scale.lines,
      html`<text x="0" y="10">${title}, minutes</text><rect class="before" x="300" y="1" width="10" height="10"/><text x="314" y="10">before</text><rect class="bar" x="380" y="1" width="10" height="10"/><text x="394" y="10">after</text>`,
      html`${bars}`,
    ],
  );
}
