import { valueName } from "../music/rhythm";
import type { TempoChange } from "./comparison";
import type { inBoth } from "./practised-changes";
import { sameFigure } from "./same-figure";

/** Exercises that begin or end the term at another tempo. Nothing is said where another note value is counted. */
export function tempoChanges(pairs: ReturnType<typeof inBoth>): readonly TempoChange[] {
  return pairs.flatMap(({ exercise, before, after }) => {
    const [was, is] = [before.tempo, after.tempo];
    const [beat, newBeat] = [before.exercise.tempo?.beat, after.exercise.tempo?.beat];
    if (was === undefined || is === undefined || beat === undefined || newBeat === undefined) return [];
    // The book tells of another note value; figures counted differently are not for comparing.
    if (beat.num !== newBeat.num || beat.den !== newBeat.den) return [];
    if (sameFigure(was.first, is.first) && sameFigure(was.last, is.last)) return [];
    return [{ exercise, beat: valueName(beat), before: was, after: is }];
  });
}
