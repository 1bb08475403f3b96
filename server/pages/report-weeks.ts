import type { PlayerTerm } from "../days/day";
import { spokenDate } from "../plan/date";
import { minutes } from "../rules/words";
import { increaseOver } from "../totals/increase";
import { type WeekTotals, weekTotals } from "../totals/week";
import { weekAllowance } from "../totals/week-allowance";
import { across, BOTTOM, chart, everyNth, rounded, upright } from "./chart";
import { type Cell, figuresTable } from "./figures-table";
import { html, type Markup } from "./markup";
import { remarkOf } from "./report-remarks";

const HEIGHT = 190;

const MEASURES = [
  { key: "clock", title: "Clock time" },
  { key: "playing", title: "Playing" },
  { key: "upper", title: "Upper register" },
  { key: "load", title: "Load" },
] as const;

type Measure = (typeof MEASURES)[number];

/** A term's weeks: four small charts against what is allowed, and all figures in one table. */
export function weeksPart(id: string, term: PlayerTerm): Markup {
  const weeks = weekTotals(term);
  return html`<h3>Week by week</h3>
<p class="note">The clock is of practice alone; playing, upper, stretch and load count bookings too. The broken line is what is allowed, where anything is said: for the week, or for its days together.</p>
<div class="charts">${MEASURES.map((measure) => weekChart(`${id}-${measure.key}`, term, weeks, measure))}</div>
${table(term, weeks)}`;
}

function say(measure: Measure, value: number): string {
  return measure.key === "load" ? String(Math.round(value)) : minutes(value);
}

function weekChart(id: string, term: PlayerTerm, weeks: readonly WeekTotals[], measure: Measure): Markup {
  const figures = weeks.map((week) => ({
    week: week.week,
    value: week[measure.key],
    allowed: weekAllowance(term, week, measure.key),
  }));
  const highest = Math.max(1, ...figures.flatMap(({ value, allowed }) => [value, allowed ?? 0]));
  const scale = upright(highest, HEIGHT, measure.key === "load" ? "points" : "seconds");
  const { x, width } = across(figures.length);
  const nth = everyNth(figures.length, 22);
  const bars = figures.map(({ week, value, allowed }, i) => {
    const over = allowed !== undefined && value > allowed + 0.5;
    const top = scale.y(value);
    const bar = html`<rect class="${over ? "bar-over" : "bar"}" x="${rounded(x(i) + width * 0.15)}" y="${top}" width="${rounded(width * 0.7)}" height="${rounded(scale.y(0) - top)}"/>`;
    const line =
      allowed === undefined
        ? undefined
        : html`<line class="budget" x1="${x(i)}" x2="${rounded(x(i) + width)}" y1="${scale.y(allowed)}" y2="${scale.y(allowed)}"/>`;
    const name =
      i % nth === 0
        ? html`<text x="${rounded(x(i) + width / 2)}" y="${HEIGHT - BOTTOM + 15}" text-anchor="middle">${week}</text>`
        : undefined;
    return html`${bar}${line}${name}`;
  });
  const most = figures.reduce((a, b) => (b.value > a.value ? b : a), figures[0] ?? { week: 0, value: 0 });
  const over = figures.filter(({ value, allowed }) => allowed !== undefined && value > allowed + 0.5).length;
  const says = `Bars for ${figures.length} taught weeks. The most is ${say(measure, most.value)} in week ${most.week}; ${over === 0 ? "no week is" : `${over} of them are`} over what is allowed.`;
  return chart(id, { title: `${measure.title} of each week`, says, height: HEIGHT }, [
    scale.lines,
    html`<text x="0" y="10">${measure.title}${measure.key === "load" ? ", points" : ", minutes"}</text>`,
    ...bars,
  ]);
}

/** `+13 %`, `−3 %`, `0 %`. */
function percent(share: number): string {
  const whole = Math.round(share * 100);
  return `${whole > 0 ? "+" : whole < 0 ? "−" : ""}${Math.abs(whole)} %`;
}

function table(term: PlayerTerm, weeks: readonly WeekTotals[]): Markup {
  const { dayStretch, weekIncrease } = term.player.figures;
  return figuresTable({
    caption: "The figures of each week",
    columns: [
      "Week",
      "From",
      "Days",
      "Clock",
      "Playing",
      "Increase",
      "Upper",
      "Stretch",
      "Load",
      "What is special",
    ],
    words: [0, 8],
    rows: weeks.map((week, i) => {
      const limited = (key: Measure["key"]): Cell => {
        const allowed = weekAllowance(term, week, key);
        const text = key === "load" ? String(Math.round(week.load)) : minutes(week[key]);
        return { text, over: allowed !== undefined && week[key] > allowed + 0.5 };
      };
      const increase = increaseOver(weeks[i - 1], week);
      const limit = weekIncrease?.value;
      return {
        head: String(week.week),
        cells: [
          spokenDate(week.days[0]?.date ?? term.term.dates.from),
          String(week.daysPlayed),
          limited("clock"),
          limited("playing"),
          {
            text: increase === undefined ? "–" : percent(increase),
            over: increase !== undefined && limit !== undefined && increase > limit + 0.005,
          },
          limited("upper"),
          {
            text: minutes(week.stretch),
            over: dayStretch !== undefined && week.stretch > dayStretch.value + 0.5,
          },
          limited("load"),
          [...new Set(week.days.map(remarkOf).filter((remark) => remark !== ""))].join("; "),
        ],
      };
    }),
  });
}
