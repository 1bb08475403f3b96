/** Whether two lists hold the very same things in the same order. */
export function sameList(a: readonly unknown[], b: readonly unknown[]): boolean {
  return a.length === b.length && a.every((each, i) => each === b[i]);
}
