import type { PlayerTerm } from "../days/day";
import { isPracticeDay } from "../days/taught-weeks";
import type { WeekTotals } from "./week";

const STATED = { clock: "weekClock", playing: "weekPlaying", upper: "weekUpper", load: "weekLoad" } as const;
const DAILY = { clock: "dayClock", playing: "dayPlaying", upper: "dayUpper", load: "dayLoad" } as const;

/**
 * Seconds (points of load) that a week may hold: as stated for the week, or else what its days of practice may hold
 * together. Undefined where neither is stated.
 */
export function weekAllowance(
  term: PlayerTerm,
  week: WeekTotals,
  quantity: keyof typeof STATED,
): number | undefined {
  const { figures } = term.player;
  const stated = figures[STATED[quantity]]?.value;
  if (stated !== undefined) return stated;
  const daily = figures[DAILY[quantity]]?.value;
  if (daily === undefined) return undefined;
  const days = week.days.filter((day) => isPracticeDay(term.term, day.date)).length;
  return daily * Math.min(days, figures.weekDays?.value ?? days);
}
