import type { Either } from "./comparison";

/** Lines that two things do not say alike, by their words: the order must not hang on which comes first. */
export function changedLines(
  before: ReadonlyMap<string, string>,
  after: ReadonlyMap<string, string>,
): readonly (Either<string> & { readonly what: string })[] {
  return [...new Set([...before.keys(), ...after.keys()])]
    .sort()
    .map((what) => ({ what, before: before.get(what), after: after.get(what) }))
    .filter((each) => each.before !== each.after);
}
