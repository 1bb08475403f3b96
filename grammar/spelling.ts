/** Which words of the language a misspelt word comes near. */

/**
 * How many letters must be changed, added, taken away or swapped with their neighbour to make one word of the
 * other; `Infinity` beyond `most`.
 */
export function letterDistance(one: string, other: string, most: number): number {
  if (Math.abs(one.length - other.length) > most) return Number.POSITIVE_INFINITY;
  let before: number[] = [];
  let last = Array.from({ length: other.length + 1 }, (_, i) => i);
  for (let i = 1; i <= one.length; i++) {
    const row = [i];
    let least = i;
    for (let j = 1; j <= other.length; j++) {
      const same = one.charCodeAt(i - 1) === other.charCodeAt(j - 1);
      let cost = Math.min(last[j]! + 1, row[j - 1]! + 1, last[j - 1]! + (same ? 0 : 1));
      const swapped =
        i > 1 &&
        j > 1 &&
        one.charCodeAt(i - 1) === other.charCodeAt(j - 2) &&
        one.charCodeAt(i - 2) === other.charCodeAt(j - 1);
      if (swapped) cost = Math.min(cost, before[j - 2]! + 1);
      row.push(cost);
      least = Math.min(least, cost);
    }
    if (least > most) return Number.POSITIVE_INFINITY;
    before = last;
    last = row;
  }
  const distance = last[other.length]!;
  return distance > most ? Number.POSITIVE_INFINITY : distance;
}

/** The words that come near, the nearest first; only the writing in capitals may differ more. */
export function nearWords(word: string, words: Iterable<string>): string[] {
  const lower = word.toLowerCase();
  const most = word.length < 3 ? 0 : word.length < 6 ? 1 : 2;
  const found: { word: string; distance: number }[] = [];
  for (const candidate of words) {
    const other = candidate.toLowerCase();
    // A word that is cut short comes near too, whatever is missing of it.
    const begun = other.startsWith(lower) && (lower.length > 2 || (lower.length === 2 && other.length === 3));
    const distance = other === lower ? 0 : Math.min(letterDistance(lower, other, most), begun ? 2 : 9);
    if ((distance <= most || begun) && candidate !== word) found.push({ word: candidate, distance });
  }
  found.sort((a, b) => a.distance - b.distance || (a.word < b.word ? -1 : 1));
  return found.map(({ word: near }) => near);
}
