import { Memory } from "../../grammar/memory";
import type { Day, PlayerTerm } from "../days/day";
import { placementName } from "../days/placement";
import { toNumber } from "../music/rhythm";
import type { Exercise } from "../plan/exercise";
import { weekTotals } from "../totals/week";
import type { WeekFigures } from "./comparison";

/** What one player practises in a term, summed up for comparing. */
export interface Practice {
  readonly exercises: ReadonlyMap<string, ExercisePractice>;
  /** Seconds of clock time, by area, in the order in which they come. */
  readonly areas: ReadonlyMap<string, number>;
  /** For each taught week, in order. */
  readonly weeks: readonly WeekFigures[];
}

/** What one exercise is asked for in a term. Weeks are taught weeks. */
export interface ExercisePractice {
  readonly exercise: Exercise;
  readonly firstWeek: number;
  readonly lastWeek: number;
  readonly times: number;
  readonly clock: number;
  /** The taught week in which each key or combination first comes. */
  readonly keys: ReadonlyMap<string, number>;
  /** Beats to the minute in the exercise's own note value, where it has one. */
  readonly tempo: { readonly first: number; readonly last: number } | undefined;
}

type Writable<T> = { -readonly [K in keyof T]: T[K] };

interface Gathered extends Writable<Omit<ExercisePractice, "keys" | "tempo">> {
  readonly keys: Map<string, number>;
  first: number | undefined;
  last: number | undefined;
}

const known = new Memory<readonly Day[], Practice>();

/** Sums a term up; days that several players share are summed up once. */
export function practiceOf(term: PlayerTerm): Practice {
  const before = known.get(term.days);
  if (before !== undefined) return before;
  const practice = gathered(term);
  known.set(term.days, practice);
  return practice;
}

function gathered(term: PlayerTerm): Practice {
  const exercises = new Map<string, Gathered>();
  const areas = new Map<string, number>();
  for (const day of term.days) {
    const { week } = day;
    if (week === undefined) continue;
    for (const session of day.sessions) {
      for (const { exercise, passes, clock, wholeSeconds } of session.items) {
        areas.set(exercise.area, (areas.get(exercise.area) ?? 0) + clock);
        let here = exercises.get(exercise.name);
        if (here === undefined) {
          here = {
            exercise,
            firstWeek: week,
            lastWeek: week,
            times: 0,
            clock: 0,
            keys: new Map(),
            first: undefined,
            last: undefined,
          };
          exercises.set(exercise.name, here);
        }
        here.lastWeek = week;
        here.clock += clock;
        for (const { placement, times } of passes) {
          here.times += times;
          const key = placementName(placement);
          if (key !== "" && !here.keys.has(key)) here.keys.set(key, week);
        }
        const beat = exercise.tempo?.beat;
        if (beat === undefined || wholeSeconds === 0) continue;
        // Quarters asked of an exercise that counts halves are told in halves.
        const bpm = 60 / (wholeSeconds * toNumber(beat));
        here.first ??= bpm;
        here.last = bpm;
      }
    }
  }
  return {
    exercises: new Map(
      [...exercises].map(([name, { first, last, ...rest }]) => [
        name,
        { ...rest, tempo: first === undefined || last === undefined ? undefined : { first, last } },
      ]),
    ),
    areas,
    weeks: weekTotals(term).map(({ clock, playing, upper }) => ({ clock, playing, upper })),
  };
}
