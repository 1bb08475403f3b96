/** Dynamic marks as levels, and what they ask of the player's air pressure. */

/** The dynamic marks, softest first. */
export const DYNAMICS = ["ppp", "pp", "p", "mp", "mf", "f", "ff", "fff"] as const;

/** A dynamic mark. */
export type Dynamic = (typeof DYNAMICS)[number];

/** Decibels from one mark to the next: common practice, no source; a studio may set its own. */
export const DYNAMIC_STEP = 5;

/** Decibels that double the blowing pressure: Fletcher & Tarnopolsky 1999, J. Acoust. Soc. Am. 105(2):874–881. */
const DOUBLING = 15;

/** Whether a word is a dynamic mark. */
export function isDynamic(word: string): word is Dynamic {
  return (DYNAMICS as readonly string[]).includes(word);
}

/** The level of a mark in decibels above mezzo-forte, `step` decibels from each mark to the next. */
export function decibels(mark: Dynamic, step = DYNAMIC_STEP): number {
  return (DYNAMICS.indexOf(mark) - DYNAMICS.indexOf("mf")) * step;
}

/** How many times the blowing pressure grows when the level rises by so many decibels. */
export function pressureFactor(decibelsUp: number): number {
  return 2 ** (decibelsUp / DOUBLING);
}
