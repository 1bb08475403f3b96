import type { PlayerTerm } from "../days/day";
import { spokenDate } from "../plan/date";
import { counted, minutes } from "../rules/words";
import { coverageOf } from "../totals/coverage";
import { html, Markup } from "./markup";
import { areasPart } from "./report-areas";
import { daysPart } from "./report-days";
import { type HistoryAsk, historyPart } from "./report-history";
import { keysPart } from "./report-keys";
import { registersPart } from "./report-registers";
import { REPORT_STYLE } from "./report-style";
import { tempiPart } from "./report-tempi";
import { weeksPart } from "./report-weeks";

export interface ReportAsk {
  readonly terms: readonly PlayerTerm[];
  /** Said once, at the foot. */
  readonly caution: string;
  readonly history: HistoryAsk | undefined;
}

/** One term of one player as a part of a page; `id` keeps the names inside it apart from those of other parts. */
export function termPart(
  id: string,
  term: PlayerTerm,
  history: HistoryAsk | undefined,
  first: boolean,
): Markup {
  const coverage = coverageOf(term);
  const { dates } = term.term;
  const played = term.days.filter((day) => day.totals.playing > 0).length;
  const clock = term.days.reduce((sum, day) => sum + day.totals.clock, 0);
  const heading = html`<h2 id="${id}"${first ? html` class="first"` : undefined}>${titleOf(term)}</h2>
<p>${spokenDate(dates.from)} to ${spokenDate(dates.to)}, ${counted(term.weeks, "taught week")}; ${counted(played, "day")} with the horn, ${minutes(clock)} of practice by the clock.</p>`;
  if (term.weeks === 0) {
    return html`${heading}
<p>No week of this term is taught, so there is nothing to show.</p>`;
  }
  return html`<section aria-labelledby="${id}">${heading}
${weeksPart(`${id}-w`, term)}
${daysPart(`${id}-d`, term)}
${areasPart(`${id}-a`, term, coverage)}
${keysPart(`${id}-k`, term, coverage)}
${registersPart(`${id}-r`, coverage)}
${tempiPart(`${id}-t`, term)}
${history === undefined ? undefined : historyPart(term, history)}
</section>`;
}

function titleOf({ term, player }: PlayerTerm): string {
  return `${term.name}: ${player.name}`;
}

/**
 * A page that needs nothing beside itself: its style stands in it, and it has no scripts. Pictures tell their
 * numbers in a table beside them.
 */
export function termReport(ask: ReportAsk): string {
  const { terms } = ask;
  const [only] = terms;
  const title = terms.length === 1 && only !== undefined ? titleOf(only) : "Terms and players";
  const page = html`<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<title>${title}: coverage and load</title>
<style>${new Markup(REPORT_STYLE)}</style>
</head>
<body>
<main>
${reportBody(ask)}
</main>
</body>
</html>
`;
  return page.text;
}

/** What stands on the page of a report, for pages that have a head of their own and take `REPORT_STYLE` into it. */
export function reportBody({ terms, caution, history }: ReportAsk): Markup {
  const parts = terms.map((term, i) => termPart(`term-${i + 1}`, term, history, i === 0));
  const contents = terms.map((term, i) => html`<li><a href="#term-${i + 1}">${titleOf(term)}</a></li>\n`);
  return html`<h1>Coverage and load</h1>
${terms.length < 2 ? undefined : html`<nav aria-label="Terms"><ul>\n${contents}</ul></nav>`}
${parts}
<p class="note">${caution}</p>`;
}
