import { add, compare, equals, type Fraction, ZERO } from "../music/rhythm";
import type { Score, ScoreEvent, ScoreNote } from "./score";

/**
 * Gives the values of a pattern to the notes in turn. It is applied to runs of notes of one equal value in a
 * bar, as many as the pattern has, wherever their values add up to the pattern's; all other notes keep theirs.
 * Returns undefined where it fits nowhere.
 */
export function appliedRhythm(score: Score, pattern: readonly Fraction[]): Score | undefined {
  let whole = ZERO;
  for (const value of pattern) whole = add(whole, value);
  let changed = false;
  const bars = score.bars.map((bar) => {
    const events: ScoreEvent[] = [];
    for (let i = 0; i < bar.events.length; ) {
      const run = bar.events.slice(i, i + pattern.length);
      if (fits(run, pattern.length, whole)) {
        run.forEach((event, n) => {
          // The pattern's values are plain ones; a tuplet whose time they fill is gone.
          const value = pattern[n]!;
          events.push(event.kind === "note" ? event.lasting(value) : { ...event, value, tuplet: undefined });
        });
        changed = true;
        i += pattern.length;
      } else {
        events.push(bar.events[i]!);
        i++;
      }
    }
    return { ...bar, events };
  });
  return changed ? { bars, order: score.order } : undefined;
}

function fits(run: readonly ScoreEvent[], notes: number, whole: Fraction): boolean {
  if (run.length < notes) return false;
  const first = run[0] as ScoreEvent;
  let sum = ZERO;
  for (const event of run) {
    if (event.kind !== "note" || (event as ScoreNote).tied || !equals(event.value, first.value)) return false;
    sum = add(sum, event.value);
  }
  return compare(sum, whole) === 0;
}
