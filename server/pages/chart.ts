import { minutes } from "../rules/words";
import { html, type Markup } from "./markup";

/** Units across a chart; on a narrow telephone it is shown at three quarters of this. */
export const WIDTH = 480;
/** Room for the figures of the axis on the left, and for the words below. */
export const LEFT = 44;
export const RIGHT = 6;
const TOP = 24;
export const BOTTOM = 22;

/** A picture with its name and a sentence on what it shows, for those who cannot see it. */
export function chart(
  id: string,
  { title, says, height }: { readonly title: string; readonly says: string; readonly height: number },
  drawing: readonly Markup[],
): Markup {
  return html`<div class="chart"><svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${WIDTH} ${height}" role="img" aria-labelledby="${id}-t ${id}-d"><title id="${id}-t">${title}</title><desc id="${id}-d">${says}</desc>${drawing}</svg></div>`;
}

/** Tables of more columns than this stand below their picture and not beside it. */
const MOST_BESIDE = 10;

/** A picture's place beside the table of its numbers, which has so many columns. */
export function pair(picture: Markup, table: Markup, columns: number): Markup {
  return html`<div class="${columns > MOST_BESIDE ? "above" : "pair"}">${picture}${table}</div>`;
}

/** Figures upwards, from nothing to a round number at or above the highest. */
export interface Upright {
  readonly height: number;
  readonly top: number;
  /** Where a figure lies. */
  readonly y: (value: number) => number;
  /** Lines across with their figures. */
  readonly lines: Markup;
}

/** Below this, an axis of time counts seconds: four minutes. */
const FEW_SECONDS = 240;

/** An axis upwards for figures up to `highest`: of seconds, told in minutes, or of points. */
export function upright(highest: number, height: number, of: "seconds" | "points"): Upright {
  const inMinutes = of === "seconds" && highest >= FEW_SECONDS;
  const unit = inMinutes ? 60 : 1;
  // Nothing is told in parts of a second, of a minute or of a point.
  const step = Math.max(1, roundStep(highest / unit / 4)) * unit;
  const say = (value: number): string =>
    of === "points" ? String(value) : inMinutes ? String(value / 60) : minutes(value);
  const count = Math.max(1, Math.ceil(highest / step - 1e-9));
  const inner = height - TOP - BOTTOM;
  const y = (value: number): number => rounded(TOP + inner * (1 - value / (step * count)));
  const lines = Array.from({ length: count + 1 }, (_, i) => {
    const at = y(i * step);
    return html`<line class="${i === 0 ? "axis" : "grid"}" x1="${LEFT}" x2="${WIDTH - RIGHT}" y1="${at}" y2="${at}"/><text x="${LEFT - 5}" y="${at + 4}" text-anchor="end">${say(i * step)}</text>`;
  });
  return { height, top: TOP, y, lines: html`${lines}` };
}

/** Places in a row from left to right. */
export function across(
  count: number,
  left = LEFT,
): { readonly x: (i: number) => number; readonly width: number } {
  const width = (WIDTH - RIGHT - left) / Math.max(1, count);
  return { x: (i) => rounded(left + i * width), width: rounded(width) };
}

/** 1, 2 or 5 times a power of ten, at or above what is asked. */
function roundStep(least: number): number {
  if (least <= 0) return 1;
  const power = 10 ** Math.floor(Math.log10(least));
  return [1, 2, 5, 10].map((each) => each * power).find((each) => each >= least - 1e-9) ?? 10 * power;
}

/** A tenth of a unit is finer than any screen. */
export function rounded(value: number): number {
  return Math.round(value * 10) / 10;
}

/** How many figures to leave out between two that are written below, so that they do not touch. */
export function everyNth(count: number, room: number): number {
  return Math.max(1, Math.ceil((count * room) / (WIDTH - LEFT - RIGHT)));
}
