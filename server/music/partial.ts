/**
 * The partials of a brass instrument: the notes one length of tube can give.
 *
 * Partial n sounds n times the frequency of the first. All figures follow from that; none is a table.
 */

/** The highest partial anything here is asked about. */
const MOST_PARTIALS = 16;

/** Half steps and cents of each partial, by number; the first two entries are the unused zero and partial 1. */
const SEMITONES: number[] = [0];
const CENTS: number[] = [0];
for (let n = 1; n <= MOST_PARTIALS; n++) {
  const semitones = Math.round(12 * Math.log2(n));
  SEMITONES.push(semitones);
  CENTS.push(1200 * Math.log2(n) - 100 * semitones);
}

/** Half steps from the first partial up to the note nearest to partial 1–16. */
export function partialSemitones(partial: number): number {
  return SEMITONES[partial] as number;
}

/** How far, in cents, partial 1–16 lies above (or, negative, below) that note of equal temperament. */
export function partialCents(partial: number): number {
  return CENTS[partial] as number;
}
