/**
 * A copy of a tree in which one node stands in place of another. Only what lies on the way to it is copied; the
 * rest is shared. Returns the same tree where the node is not in it.
 */
export function replaced<T>(tree: T, old: object, fresh: object): T {
  if ((tree as unknown) === old) return fresh as T;
  if (Array.isArray(tree)) {
    let changed = false;
    const items = tree.map((item: unknown) => {
      const next = replaced(item, old, fresh);
      if (next !== item) changed = true;
      return next;
    });
    return changed ? (items as T) : tree;
  }
  if (typeof tree !== "object" || tree === null) return tree;
  const copy: Record<string, unknown> = Object.fromEntries(Object.entries(tree));
  let changed = false;
  for (const [key, value] of Object.entries(tree)) {
    const next: unknown = replaced(value, old, fresh);
    if (next === value) continue;
    copy[key] = next;
    changed = true;
  }
  return changed ? (copy as T) : tree;
}
