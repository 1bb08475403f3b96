/**
 * Calendar days as whole numbers: days since 1970-01-01, without hours and so without time zones. Weekdays
 * count from Monday (0) to Sunday (6), weeks from Monday, as ISO 8601 has them.
 */

const DAY_MS = 86_400_000;

/** The years a plan may name; beyond them a date is surely a slip. */
export const FIRST_YEAR = 1900;
export const LAST_YEAR = 2199;

/** The day number of a date written `2026-09-07`, or undefined where no such day exists. */
export function parseDate(text: string): number | undefined {
  const match = /^(\d{4})-(\d{1,2})-(\d{1,2})$/.exec(text);
  if (match === null) return undefined;
  const [year, month, day] = [Number(match[1]), Number(match[2]), Number(match[3])];
  if (year < FIRST_YEAR || year > LAST_YEAR) return undefined;
  const date = new Date(Date.UTC(year, month - 1, day));
  if (date.getUTCMonth() !== month - 1 || date.getUTCDate() !== day) return undefined;
  return date.getTime() / DAY_MS;
}

/** A day number as `2026-09-07`. */
export function dateText(day: number): string {
  return new Date(day * DAY_MS).toISOString().slice(0, 10);
}

/** 0 for Monday to 6 for Sunday. */
export function weekdayOf(day: number): number {
  // 1970-01-01 was a Thursday (3).
  return (((day + 3) % 7) + 7) % 7;
}

/** The Monday on or before a day. */
export function mondayOf(day: number): number {
  return day - weekdayOf(day);
}

export const WEEKDAYS = ["Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"] as const;

/** A day as people read it: `Tue 2026-11-17`. */
export function spokenDate(day: number): string {
  return `${WEEKDAYS[weekdayOf(day)]} ${dateText(day)}`;
}

/** The ISO 8601 week a day belongs to: week 1 is the one with the year's first Thursday. */
export function isoWeek(day: number): { readonly year: number; readonly week: number } {
  const thursday = mondayOf(day) + 3;
  const year = new Date(thursday * DAY_MS).getUTCFullYear();
  const first = Date.UTC(year, 0, 1) / DAY_MS;
  return { year, week: Math.floor((thursday - first) / 7) + 1 };
}
