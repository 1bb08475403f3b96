/** A seeded source of chance, so that every run measures the very same texts (mulberry32). */
export class Random {
  constructor(private seed: number) {}

  /** From 0 up to, but not, 1. */
  next(): number {
    this.seed = (this.seed + 0x6d2b79f5) | 0;
    let t = Math.imul(this.seed ^ (this.seed >>> 15), 1 | this.seed);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  }

  /** A whole number from `low` to `high`, both included. */
  whole(low: number, high: number): number {
    return low + Math.floor(this.next() * (high - low + 1));
  }

  pick<T>(from: readonly [T, ...T[]]): T {
    return from[this.whole(0, from.length - 1)]!;
  }
}
