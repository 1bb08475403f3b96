import type { PlayerTerm } from "../days/day";
import { type Fraction, toNumber } from "../music/rhythm";

/** How an exercise is asked for through a term. */
export interface TempoGrowth {
  readonly exercise: string;
  /** The note value it counts. */
  readonly beat: Fraction;
  /** For each taught week, from 0, the fastest beats to the minute asked; undefined where it is not played. */
  readonly weeks: readonly (number | undefined)[];
}

/** The tempo of each exercise in each taught week, in the exercise's own note value, in the order they come. */
export function tempoGrowth(term: PlayerTerm): readonly TempoGrowth[] {
  const found = new Map<string, { beat: Fraction; weeks: (number | undefined)[] }>();
  for (const day of term.days) {
    if (day.week === undefined) continue;
    for (const { exercise, wholeSeconds } of day.sessions.flatMap((session) => session.items)) {
      const beat = exercise.tempo?.beat;
      if (beat === undefined || wholeSeconds === 0) continue;
      let here = found.get(exercise.name);
      if (here === undefined) {
        here = { beat, weeks: Array.from({ length: term.weeks }, () => undefined) };
        found.set(exercise.name, here);
      }
      const bpm = 60 / (wholeSeconds * toNumber(beat));
      const before = here.weeks[day.week - 1];
      here.weeks[day.week - 1] = before === undefined ? bpm : Math.max(before, bpm);
    }
  }
  return [...found].map(([exercise, { beat, weeks }]) => ({ exercise, beat, weeks }));
}
