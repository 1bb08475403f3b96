/**
 * The candidate that a misspelt name most likely meant: the one with the fewest letters wrong, missing, extra
 * or changed over with their neighbour, if they are few for its length; case does not count.
 */
export function nearest(name: string, candidates: Iterable<string>): string | undefined {
  let best: string | undefined;
  const wanted = name.toLowerCase();
  let least = Math.max(1, Math.floor(name.length / 3)) + 1;
  for (const candidate of candidates) {
    if (Math.abs(candidate.length - name.length) >= least) continue;
    const slips = distance(wanted, candidate.toLowerCase());
    if (slips < least) {
      least = slips;
      best = candidate;
    }
  }
  return best;
}

function distance(a: string, b: string): number {
  let before: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, i) => i);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1] ? 0 : 1;
      let least = Math.min(row[j - 1]! + 1, last[j]! + 1, last[j - 1]! + same);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        least = Math.min(least, before[j - 2]! + 1);
      row.push(least);
    }
    before = last;
    last = row;
  }
  return last[b.length]!;
}
