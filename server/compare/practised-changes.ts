import type { Both, Practised } from "./comparison";
import type { ExercisePractice, Practice } from "./practice";

/** Exercises of one term that are not asked for in the other. */
export function onlyIn(here: Practice, isInTheOther: (exercise: string) => boolean): readonly Practised[] {
  return [...here.exercises]
    .filter(([name]) => !isInTheOther(name))
    .map(([exercise, { firstWeek, lastWeek, times, clock }]) => ({
      exercise,
      from: firstWeek,
      to: lastWeek,
      times,
      clock,
    }))
    .sort((a, b) => a.from - b.from || (a.exercise < b.exercise ? -1 : 1));
}

/** The exercises that both terms ask for, each under the names it has on either side. */
export function inBoth(
  before: Practice,
  after: Practice,
  newName: (exercise: string) => string,
): readonly (Both<ExercisePractice> & { readonly exercise: Both<string> })[] {
  return [...before.exercises]
    .flatMap(([name, here]) => {
      const there = after.exercises.get(newName(name));
      if (there === undefined) return [];
      return [{ exercise: { before: name, after: newName(name) }, before: here, after: there }];
    })
    .sort((a, b) => (sorting(a.exercise) < sorting(b.exercise) ? -1 : 1));
}

/** In an order that does not hang on which side comes first. */
function sorting({ before, after }: Both<string>): string {
  return before < after ? `${before}\n${after}` : `${after}\n${before}`;
}
