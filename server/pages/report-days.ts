import type { Day, PlayerTerm } from "../days/day";
import { weekdayOf } from "../plan/date";
import type { PlayerFigures, Stated } from "../plan/player";
import { minutes } from "../rules/words";
import { across, BOTTOM, chart, LEFT, pair, RIGHT, rounded, upright, WIDTH } from "./chart";
import { type Cell, figuresTable } from "./figures-table";
import { html, type Markup } from "./markup";
import { practisedWeekdays } from "./weekdays";

const HEIGHT = 150;

interface Measure {
  readonly key: "clock" | "playing" | "upper" | "stretch" | "load";
  readonly title: string;
  readonly budget: (figures: PlayerFigures) => Stated<number> | undefined;
}

const MEASURES: readonly Measure[] = [
  { key: "clock", title: "Clock time", budget: (of) => of.dayClock },
  { key: "playing", title: "Playing", budget: (of) => of.dayPlaying },
  { key: "upper", title: "Upper register", budget: (of) => of.dayUpper },
  { key: "stretch", title: "Longest stretch", budget: (of) => of.dayStretch },
  { key: "load", title: "Load", budget: (of) => of.dayLoad },
];

/** A term's days, one picture and one table for each figure. */
export function daysPart(id: string, term: PlayerTerm): Markup {
  return html`<h3>Day by day</h3>
<p class="note">Grey days are closed; a triangle marks a concert; a red bar, or a red bold figure, is over what the day may hold.</p>
${MEASURES.map((measure) => pair(dayChart(`${id}-${measure.key}`, term, measure), dayTable(term, measure), 8))}`;
}

function dayChart(id: string, term: PlayerTerm, measure: Measure): Markup {
  const { days } = term;
  const budget = measure.budget(term.player.figures)?.value;
  const say = (value: number): string =>
    measure.key === "load" ? String(Math.round(value)) : minutes(value);
  const highest = Math.max(1, budget ?? 0, ...days.map((day) => day.totals[measure.key]));
  const scale = upright(highest, HEIGHT, measure.key === "load" ? "points" : "seconds");
  const { x, width } = across(days.length);
  const floor = scale.y(0);
  const closed = days.map((day, i) =>
    day.state === "closed"
      ? html`<rect class="closed" x="${x(i)}" y="${scale.top}" width="${width}" height="${rounded(floor - scale.top)}"/>`
      : undefined,
  );
  const bars = days.map((day, i) => {
    const value = day.totals[measure.key];
    if (value <= 0) return undefined;
    const over = budget !== undefined && value > budget + 0.5;
    return html`<rect class="${over ? "bar-over" : "bar"}" x="${x(i)}" y="${scale.y(value)}" width="${rounded(Math.max(1, width - 1))}" height="${rounded(floor - scale.y(value))}"/>`;
  });
  const concerts = days.map((day, i) => {
    if (day.concert === undefined) return undefined;
    const middle = x(i) + width / 2;
    return html`<path class="concert" d="M${rounded(middle - 5)} ${HEIGHT - 8} h10 l-5 -9 z"/>`;
  });
  const line =
    budget === undefined
      ? undefined
      : html`<line class="budget" x1="${LEFT}" x2="${WIDTH - RIGHT}" y1="${scale.y(budget)}" y2="${scale.y(budget)}"/>`;
  const played = days.filter((day) => day.totals[measure.key] > 0);
  const most = Math.max(0, ...played.map((day) => day.totals[measure.key]));
  const over = played.filter((day) => budget !== undefined && day.totals[measure.key] > budget + 0.5);
  const allowed =
    budget === undefined
      ? "Nothing is said of how much it may be."
      : `At most ${say(budget)} is allowed; ${over.length} ${over.length === 1 ? "day is" : "days are"} over it.`;
  return chart(
    id,
    {
      title: `${measure.title} of each day`,
      says: `A bar for each of ${days.length} days. The most is ${say(most)}. ${allowed}`,
      height: HEIGHT,
    },
    [
      html`${closed}`,
      scale.lines,
      html`<text x="0" y="10">${measure.title}${measure.key === "load" ? ", points" : ", minutes"}</text>`,
      html`${bars}${line ?? ""}${concerts}`,
      html`${weekNames(days, x)}`,
    ],
  );
}

/** The numbers of the taught weeks below their Mondays, as many as do not touch. */
function weekNames(days: readonly Day[], x: (i: number) => number): readonly Markup[] {
  const names: Markup[] = [];
  let [named, free] = [0, 0];
  for (const [i, day] of days.entries()) {
    if (day.week === undefined || day.week === named) continue;
    named = day.week;
    if (x(i) < free) continue;
    free = x(i) + 24;
    names.push(html`<text x="${x(i)}" y="${HEIGHT - BOTTOM + 15}">${named}</text>`);
  }
  return names;
}

function dayTable(term: PlayerTerm, { key, title, budget }: Measure): Markup {
  const limit = budget(term.player.figures)?.value;
  const weeks = new Map<number, Day[]>();
  for (const day of term.days) {
    if (day.week === undefined) continue;
    const week = weeks.get(day.week) ?? [];
    weeks.set(day.week, week);
    week.push(day);
  }
  const cell = (day: Day | undefined): Cell => {
    if (day === undefined) return { text: "" };
    const value = day.totals[key];
    if (value <= 0) return { text: day.state === "closed" || day.state === "ill" ? day.state : "–" };
    const text = key === "load" ? String(Math.round(value)) : minutes(value);
    const concert = day.concert === undefined ? "" : " ▲";
    return { text: `${text}${concert}`, over: limit !== undefined && value > limit + 0.5 };
  };
  const weekdays = practisedWeekdays(term);
  return figuresTable({
    caption: `${title} of each day`,
    columns: ["Week", ...weekdays.map(({ name }) => name)],
    rows: [...weeks].map(([week, days]) => ({
      head: String(week),
      cells: weekdays.map(({ weekday }) => cell(days.find((day) => weekdayOf(day.date) === weekday))),
    })),
  });
}
