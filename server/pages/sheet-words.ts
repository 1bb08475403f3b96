/** How pages for the music stand say dates, tempi, keys and amounts. */

import type { DayItem, Pass } from "../days/day";
import { placementName } from "../days/placement";
import { keyName, type Mode } from "../music/key";
import { noteSign } from "../music/pitch";
import { type Fraction, valueName } from "../music/rhythm";
import { dateText, weekdayOf } from "../plan/date";
import type { Rest } from "../plan/exercise";
import type { Settings } from "../plan/settings";
import { list } from "../rules/words";
import type { SheetLine } from "./sheet-day";

const WEEKDAY_NAMES = ["Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"] as const;

const MONTH_NAMES = [
  "January",
  "February",
  "March",
  "April",
  "May",
  "June",
  "July",
  "August",
  "September",
  "October",
  "November",
  "December",
] as const;

/** A day as it heads a page: `Monday 11 January 2027`. */
export function longDate(date: number): string {
  return `${dayAndMonth(date)} ${dateText(date).slice(0, 4)}`;
}

/** A day in the middle of a term: `Friday 12 March`. */
export function dayAndMonth(date: number): string {
  const [, month = 1, day = 1] = dateText(date).split("-").map(Number);
  return `${WEEKDAY_NAMES[weekdayOf(date)]} ${day} ${MONTH_NAMES[month - 1]}`;
}

/** How many times through: `once`, `twice`, `3 times`. */
export function timesWords(times: number): string {
  if (times === 1) return "once";
  return times === 2 ? "twice" : `${times} times`;
}

/** A tempo in its parts, so that the note of the mark can stand between them. */
export interface SheetTempo {
  /** The note value: `quarter`. */
  readonly value: string;
  readonly beat: Fraction;
  /** `= 58`, `= 50 to 58, as you choose`, `= 50 growing to 58`. */
  readonly number: string;
}

/** A tempo, or the choice between two. */
export function sheetTempo(beat: Fraction, bpm: number, fastest = bpm): SheetTempo {
  return {
    value: valueName(beat),
    beat,
    number: `= ${bpm}${fastest > bpm ? ` to ${fastest}, as you choose` : ""}`,
  };
}

/** A tempo in words alone: `half = 58`. */
export function tempoWords(tempo: SheetTempo): string {
  return `${tempo.value} ${tempo.number}`;
}

/** The rest after each time through; empty where it is no more than a breath. Whole seconds. */
export function restWords(seconds: number, settings: Pick<Settings, "hornDown" | "breathBetween">): string {
  if (seconds <= settings.breathBetween) return "";
  // Said short where it is a little too short to take the horn down.
  return `${seconds >= settings.hornDown ? "horn down" : "rest"} ${Math.round(seconds)} s`;
}

/** Keys of one mode said once: `C, D♭ and D major`; combinations: `open, 2 and 1`; empty for home without a key. */
export function whereWords(passes: readonly Pass[]): string {
  const [first] = passes;
  if (first === undefined) return "";
  if (passes.length === 1) return placementName(first.placement);
  const combinations = passes.flatMap(({ placement: { combination } }) =>
    combination === undefined ? [] : [combination.name === "0" ? "open" : combination.name],
  );
  if (combinations.length > 0) return `valves ${list(combinations, MOST_NAMED)}`;
  const keys = passes.flatMap(({ placement: { key } }) => (key === undefined ? [] : [key]));
  const mode: Mode | undefined = keys[0]?.mode;
  if (mode === undefined) return "";
  if (keys.some((key) => key.mode !== mode)) return list(keys.map(keyName), MOST_NAMED);
  const tonics = keys.map((key) => noteSign({ ...key, octave: 4 }));
  const last = keys.at(-1);
  return last === undefined ? "" : `${list([...tonics.slice(0, -1), keyName(last)], MOST_NAMED)}`;
}

/** A walk has at most thirteen keys, and each is worth its name. */
const MOST_NAMED = 24;

/** How often an item is played: in each key where it travels on one day. */
export function amountWords({ passes, exercise }: Pick<DayItem, "passes" | "exercise">): string {
  const times = passes[0]?.times ?? 0;
  if (exercise.series !== undefined) {
    const cells = `${passes.length} cell${passes.length === 1 ? "" : "s"}`;
    return times > 1 ? `${cells}, ${timesWords(times)}` : cells;
  }
  if (passes.length <= 1) return timesWords(times);
  if (passes.every((pass) => pass.times === times)) return `${timesWords(times)} in each`;
  return `${passes.reduce((sum, pass) => sum + pass.times, 0)} times in all`;
}

/** The rest an exercise asks for after each time through. */
export function restOfExercise(rest: Rest, settings: Pick<Settings, "hornDown" | "breathBetween">): string {
  switch (rest.kind) {
    case "none":
      return "";
    case "equal":
      return "rest as long as you played";
    case "time":
      return restWords(rest.seconds, settings);
  }
}

/** Whether only the opening of a line's music stands on the page. */
export function isOpening(line: SheetLine): boolean {
  return line.kind === "item" && line.music.some(({ picture }) => picture.opening);
}

/** What is marked so, as the foot of the page says. */
export const OPENING = "opening";
export const OPENED = "the whole stands in the packet";
