import { minutes } from "../rules/words";
import type { Coverage } from "../totals/coverage";
import { across, BOTTOM, chart, everyNth, pair, rounded, upright } from "./chart";
import { figuresTable } from "./figures-table";
import { html, type Markup } from "./markup";

const HEIGHT = 190;
const PARTS = [
  { key: "low", title: "Below C4" },
  { key: "middle", title: "C4 to B4" },
  { key: "high", title: "C5 and up" },
] as const;

/** How much of each week's notes lies in which register. */
export function registersPart(id: string, { registers }: Coverage): Markup {
  const sums = registers.map(({ low, middle, high }) => low + middle + high);
  const highest = Math.max(1, ...sums);
  const scale = upright(highest, HEIGHT, "seconds");
  const { x, width } = across(registers.length);
  const nth = everyNth(registers.length, 22);
  const bars = registers.map((week, i) => {
    let floor = 0;
    const parts = PARTS.map(({ key }) => {
      const [from, to] = [scale.y(floor), scale.y(floor + week[key])];
      floor += week[key];
      return html`<rect class="${key}" x="${rounded(x(i) + width * 0.15)}" y="${to}" width="${rounded(width * 0.7)}" height="${rounded(from - to)}"/>`;
    });
    const name =
      i % nth === 0
        ? html`<text x="${rounded(x(i) + width / 2)}" y="${HEIGHT - BOTTOM + 15}" text-anchor="middle">${week.week}</text>`
        : undefined;
    return html`${parts}${name}`;
  });
  const legend = PARTS.map(
    ({ key, title }, i) =>
      html`<rect class="${key}" x="${150 + i * 108}" y="1" width="10" height="10"/><text x="${164 + i * 108}" y="10">${title}</text>`,
  );
  const sum = (key: "low" | "middle" | "high"): number => registers.reduce((all, week) => all + week[key], 0);
  const picture = chart(
    id,
    {
      title: "Registers of each week",
      says: `Stacked bars for ${registers.length} taught weeks. In the whole term ${minutes(sum("low"))} lies below C4, ${minutes(sum("middle"))} from C4 to B4 and ${minutes(sum("high"))} from C5 up.`,
      height: HEIGHT,
    },
    [scale.lines, html`<text x="0" y="10">Playing, minutes</text>`, html`${legend}`, html`${bars}`],
  );
  const table = figuresTable({
    caption: "Playing in each register, bookings aside",
    columns: ["Week", ...PARTS.map(({ title }) => title)],
    rows: registers.map((week) => ({
      head: String(week.week),
      cells: PARTS.map(({ key }) => minutes(week[key])),
    })),
  });
  return html`<h3>Registers and weeks</h3>
${pair(picture, table, 4)}`;
}
