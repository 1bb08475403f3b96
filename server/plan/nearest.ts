import { letterDistance } from "../../grammar/spelling";

/**
 * The candidate that a misspelt name most likely meant: the one with the fewest letters wrong, missing, extra
 * or changed over with their neighbour, if they are few for its length; case does not count.
 */
export function nearest(name: string, candidates: Iterable<string>): string | undefined {
  let best: string | undefined;
  const wanted = name.toLowerCase();
  let least = Math.max(1, Math.floor(name.length / 3)) + 1;
  for (const candidate of candidates) {
    const slips = letterDistance(wanted, candidate.toLowerCase(), least - 1);
    if (slips < least) {
      least = slips;
      best = candidate;
    }
  }
  return best;
}
