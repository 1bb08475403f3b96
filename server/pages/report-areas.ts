import type { PlayerTerm } from "../days/day";
import { weekdayOf } from "../plan/date";
import type { Coverage } from "../totals/coverage";
import { across, chart, pair, rounded } from "./chart";
import { figuresTable } from "./figures-table";
import { html, type Markup } from "./markup";
import { practisedWeekdays } from "./weekdays";

const ROW = 18;
/** Room for the names of areas. */
const NAMES = 130;
const LONGEST_NAME = 20;

/** On which days each area is touched. */
export function areasPart(id: string, term: PlayerTerm, { areas }: Coverage): Markup {
  const { days } = term;
  const { x, width } = across(days.length, NAMES);
  const rows = [...areas];
  const height = rows.length * ROW + 26;
  const closed = days.map((day, i) =>
    day.state === "closed"
      ? html`<rect class="closed" x="${x(i)}" y="0" width="${width}" height="${rows.length * ROW}"/>`
      : undefined,
  );
  const drawn = rows.map(([area, dates], row) => {
    const name = area.length > LONGEST_NAME ? `${area.slice(0, LONGEST_NAME - 1)}…` : area;
    const cells = days.map((day, i) =>
      dates.has(day.date)
        ? html`<rect class="bar" x="${x(i)}" y="${row * ROW + 3}" width="${rounded(Math.max(1, width - 0.8))}" height="${ROW - 6}"/>`
        : undefined,
    );
    return html`<text x="0" y="${row * ROW + 13}">${name}</text>${cells}`;
  });
  let [named, free] = [0, 0];
  const weeks = days.map((day, i) => {
    if (day.week === undefined || day.week === named) return undefined;
    named = day.week;
    if (x(i) < free) return undefined;
    free = x(i) + 24;
    return html`<text x="${x(i)}" y="${height - 8}">${named}</text>`;
  });
  const practised = days.filter((day) => day.sessions.length > 0);
  const picture = chart(
    id,
    {
      title: "The days on which each area is touched",
      says: `A row for each of ${rows.length} areas and a mark for each day on which it is practised, over the numbers of the taught weeks.`,
      height,
    },
    [html`${closed}`, html`${drawn}`, html`${weeks}`],
  );
  const weekdays = practisedWeekdays(term);
  const table = figuresTable({
    caption: "Days on which each area is touched",
    columns: ["Area", "Days", ...weekdays.map(({ name }) => name), "Left alone"],
    rows: rows.map(([area, dates]) => ({
      head: area,
      cells: [
        String(dates.size),
        ...weekdays.map(({ weekday }) =>
          String([...dates].filter((date) => weekdayOf(date) === weekday).length),
        ),
        String(longestPause(practised.map((day) => dates.has(day.date)))),
      ],
    })),
  });
  return html`<h3>Areas and days</h3>
<p class="note">“Left alone” is the longest run of practice days without the area.</p>
${pair(picture, table, weekdays.length + 3)}`;
}

/** The longest run of days without it. */
function longestPause(touched: readonly boolean[]): number {
  let [longest, now] = [0, 0];
  for (const each of touched) {
    now = each ? 0 : now + 1;
    longest = Math.max(longest, now);
  }
  return longest;
}
