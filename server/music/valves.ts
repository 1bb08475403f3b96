/**
 * Where a note lies on an instrument: its partial, its fingering, its intonation.
 *
 * All note numbers here are written MIDI numbers, as the player reads them.
 */
import { type Combination, combinationCents, type ThirdValve, takesThirdSlide } from "./combination.js";
import type { Instrument } from "./instrument.js";
import { partialCents, partialSemitones } from "./partial.js";

export { type Combination, combinations, type ThirdValve } from "./combination.js";

/** One way of playing a note: the valves (or slide) and the partial that speaks on them. */
export interface Fingering {
  readonly combination: Combination;
  readonly partial: number;
}

/** The note partial 1–16 gives on a combination, as a written MIDI number. */
export function partialMidi(partial: number, combination: Combination, instrument: Instrument): number {
  return instrument.openFundamental + partialSemitones(partial) - combination.semitones;
}

/** The partials that may serve a note: the usable ones, or above the last of them the high ones. */
function partialsFor(midi: number, instrument: Instrument): readonly number[] {
  const highest = instrument.partials[instrument.partials.length - 1] as number;
  const top = instrument.openFundamental + partialSemitones(highest);
  return midi > top ? instrument.highPartials : instrument.partials;
}

function combinationLowering(semitones: number, instrument: Instrument): Combination | undefined {
  for (const combination of instrument.combinations) {
    if (combination.semitones === semitones) return combination;
  }
  return undefined;
}

/**
 * Every way of playing a note, best first: the shortest tube that reaches it, hence the lowest partial at
 * or above it, and then the alternates on higher partials. Empty when the instrument has no such note.
 */
export function partialsOf(midi: number, instrument: Instrument): Fingering[] {
  const found: Fingering[] = [];
  for (const partial of partialsFor(midi, instrument)) {
    const open = instrument.openFundamental + partialSemitones(partial);
    const combination = combinationLowering(open - midi, instrument);
    if (combination !== undefined) found.push({ combination, partial });
  }
  return found;
}

/**
 * The home fingering of a note: the first of `partialsOf`. Undefined when the instrument has no such note.
 * The rule gives the standard chart for every note of the trumpet.
 */
export function fingering(midi: number, instrument: Instrument): Fingering | undefined {
  for (const partial of partialsFor(midi, instrument)) {
    const open = instrument.openFundamental + partialSemitones(partial);
    const combination = combinationLowering(open - midi, instrument);
    if (combination !== undefined) return { combination, partial };
  }
  return undefined;
}

/** Whether a note is one of the partials of a combination. */
export function liesOn(midi: number, combination: Combination, instrument: Instrument): boolean {
  const above = midi + combination.semitones - instrument.openFundamental;
  for (const partial of partialsFor(midi, instrument)) {
    if (partialSemitones(partial) === above) return true;
  }
  return false;
}

/**
 * The combinations on which every one of the notes lies, shortest tube first: what a lip slur needs. Empty
 * when there is none; all of them when there are no notes.
 */
export function commonCombination(midis: readonly number[], instrument: Instrument): Combination[] {
  const common: Combination[] = [];
  for (const combination of instrument.combinations) {
    let all = true;
    for (let at = 0; all && at < midis.length; at++) {
      all = liesOn(midis[at] as number, combination, instrument);
    }
    if (all) common.push(combination);
  }
  return common;
}

/**
 * Predicted intonation in cents against equal temperament, positive sharp: the partial's own error plus
 * that of the combined tubing. The third valve is cut as the instrument says unless told otherwise. It
 * knows nothing of lips, slides or the bore.
 */
export function centsOf(
  partial: number,
  combination: Combination,
  instrument: Instrument,
  thirdValve: ThirdValve = instrument.thirdValve,
): number {
  return partialCents(partial) + combinationCents(combination, thirdValve);
}

/** Whether a note's home fingering is so sharp that the third-valve slide must go out (D4, C♯4, G3, F♯3). */
export function needsThirdSlide(midi: number, instrument: Instrument): boolean {
  const home = fingering(midi, instrument);
  return home !== undefined && takesThirdSlide(home.combination);
}
