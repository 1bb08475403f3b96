/** The empty list, for all who have nothing to say. */
export const NONE: readonly never[] = [];

/** The list with a thing more. It is made for its first one: most of what may be said of an exercise is not said. */
export function listed<T>(list: T[] | undefined, thing: T): T[] {
  if (list === undefined) return [thing];
  list.push(thing);
  return list;
}
