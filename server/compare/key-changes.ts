import type { KeyChange } from "./comparison";
import type { inBoth } from "./practised-changes";

/** Keys (or combinations) that an exercise reaches in another week than before, for the first time, or no more. */
export function keyChanges(pairs: ReturnType<typeof inBoth>): readonly KeyChange[] {
  return pairs.flatMap(({ exercise, before, after }) =>
    [...new Set([...before.keys.keys(), ...after.keys.keys()])]
      .sort()
      .map((key) => ({ exercise, key, before: before.keys.get(key), after: after.keys.get(key) }))
      .filter((each) => each.before !== each.after),
  );
}
