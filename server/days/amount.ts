import type { Growth } from "../plan/term";

/**
 * A growing value in one week of a block: even steps in whole numbers from the first week to the last. `index`
 * counts the block's taught weeks from 0.
 */
export function grown(growth: Growth, index: number, weeks: number): number {
  if (growth.way !== "growth" || weeks <= 1) return growth.from;
  return Math.round(growth.from + ((growth.to - growth.from) * index) / (weeks - 1));
}

/** Growing minutes, in seconds: the steps are whole minutes. */
export function grownSeconds(growth: Growth, index: number, weeks: number): number {
  const { way, from, to } = growth;
  return 60 * grown({ way, from: from / 60, to: to / 60 }, index, weeks);
}

/** Whole times through with the rest after each that fit in `seconds`; at least one. */
export function timesThatFit(seconds: number, play: number, rest: number): number {
  if (play + rest <= 0) return 1;
  // A millionth of a second forgives what the computer's arithmetic loses.
  return Math.max(1, Math.floor((seconds + 1e-6) / (play + rest)));
}

/** Whole cells of a series that fit in `seconds`, where the last rest need not; at least one. */
export function cellsThatFit(seconds: number, play: number, rest: number): number {
  if (play + rest <= 0) return 1;
  return Math.max(1, Math.floor((seconds + rest + 1e-6) / (play + rest)));
}

/** Times through on an easier day: whole, rounded down, at least one. */
export function easedTimes(times: number, share: number): number {
  return share === 1 ? times : Math.max(1, Math.floor(times * share + 1e-9));
}
