/** Random musical data for property tests. */
import fc from "fast-check";
import { type Key, MODES } from "../../../server/music/key.js";
import type { Pitch } from "../../../server/music/pitch.js";
import { type Fraction, fraction } from "../../../server/music/rhythm.js";

/** Any pitch the language can spell. */
export const anyPitch: fc.Arbitrary<Pitch> = fc.record({
  step: fc.integer({ min: 0, max: 6 }),
  alter: fc.integer({ min: -2, max: 2 }),
  octave: fc.integer({ min: -1, max: 9 }),
});

/** Any key music is printed in: every mode, signatures up to seven. */
export const anyKey: fc.Arbitrary<Key> = fc.record({
  step: fc.integer({ min: 0, max: 6 }),
  alter: fc.integer({ min: -1, max: 1 }),
  mode: fc.constantFrom(...MODES),
});

/** Fractions of the size that note values have. */
export const anyFraction: fc.Arbitrary<Fraction> = fc
  .tuple(fc.integer({ min: -999, max: 999 }), fc.integer({ min: 1, max: 960 }))
  .map(([num, den]) => fraction(num, den));
