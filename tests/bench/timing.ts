/** A thing to be timed: it does its work once and says how many milliseconds that took. */
export type Timed = () => number | Promise<number>;

/** Times each in turn, round after round, so that a slow spell of the machine falls on all alike. */
export async function interleaved(rounds: number, ...works: readonly Timed[]): Promise<number[][]> {
  const times: number[][] = works.map(() => []);
  for (let round = 0; round < rounds; round++) {
    for (const [i, work] of works.entries()) times[i]!.push(await work());
  }
  return times;
}

export function median(times: readonly number[]): number {
  const sorted = [...times].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
}

export function best(times: readonly number[]): number {
  return Math.min(...times);
}

/** What all but one in twenty stay within. */
export function p95(times: readonly number[]): number {
  const sorted = [...times].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.ceil(sorted.length * 0.95) - 1)]!;
}
