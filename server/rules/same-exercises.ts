import type { DayItem } from "../days/day";

/** Whether two sessions of one content play the same exercises for the same lines: a change may have put in another. */
export function sameExercises(a: readonly DayItem[], b: readonly DayItem[]): boolean {
  if (a === b) return true;
  if (a.length !== b.length) return false;
  for (let i = 0; i < a.length; i++) {
    if (a[i]!.exercise !== b[i]!.exercise || a[i]!.assignment !== b[i]!.assignment) return false;
  }
  return true;
}
