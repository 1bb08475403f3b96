import type { PlayerTerm } from "../days/day";
import { placementName } from "../days/placement";
import { lasting, secondsFrom } from "../profile/profile";

/** What a term touches: exercise by key, area by day, register by week. */
export interface Coverage {
  /** Times through of each exercise in each key or combination, in the order they first come. */
  readonly keys: ReadonlyMap<string, ReadonlyMap<string, number>>;
  /** The dates on which each area is touched. */
  readonly areas: ReadonlyMap<string, ReadonlySet<number>>;
  /** Seconds of notated playing in each register, for each taught week in order; bookings have no notes. */
  readonly registers: readonly Registers[];
}

/** Seconds, by written pitch. */
export interface Registers {
  readonly week: number;
  /** Below C4. */
  readonly low: number;
  /** C4 to B4. */
  readonly middle: number;
  /** C5 and above. */
  readonly high: number;
}

/** The registers part at low C and third-space C: common practice, no source. */
const LOW_C = 60;
const THIRD_SPACE_C = 72;

/** Counts what a term touches for one player. */
export function coverageOf(term: PlayerTerm): Coverage {
  const keys = new Map<string, Map<string, number>>();
  const areas = new Map<string, Set<number>>();
  const registers = Array.from({ length: term.weeks }, (_, i) => ({
    week: i + 1,
    low: 0,
    middle: 0,
    high: 0,
  }));
  for (const day of term.days) {
    for (const session of day.sessions) {
      for (const { exercise, passes, profile, wholeSeconds } of session.items) {
        const dates = areas.get(exercise.area) ?? new Set<number>();
        areas.set(exercise.area, dates.add(day.date));
        const here = keys.get(exercise.name) ?? new Map<string, number>();
        keys.set(exercise.name, here);
        const week = day.week === undefined ? undefined : registers[day.week - 1];
        for (const { placement, times } of passes) {
          const key = placementName(placement);
          here.set(key, (here.get(key) ?? 0) + times);
          if (week === undefined || profile.atOrAbove.length === 0) continue;
          const from = (midi: number): number =>
            times * secondsFrom(profile, midi - placement.semitones, wholeSeconds);
          const high = from(THIRD_SPACE_C);
          const middle = from(LOW_C) - high;
          week.high += high;
          week.middle += middle;
          week.low += times * lasting(profile.playing, wholeSeconds) - middle - high;
        }
      }
    }
  }
  return { keys, areas, registers };
}
