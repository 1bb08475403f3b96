/** Whether a list is the same, each for each, as the first `count` of another. */
export function areTheFirst(list: readonly unknown[], all: readonly unknown[], count: number): boolean {
  if (list.length !== count) return false;
  for (let i = 0; i < count; i++) if (list[i] !== all[i]) return false;
  return true;
}
