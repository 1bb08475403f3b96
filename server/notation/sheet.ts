/**
 * An exercise as it stands on paper: placed in a key, spelled, its slurs and tonguing settled, its cells and
 * combinations written out. Whatever writes notation or sound reads this and nothing else.
 */
import type { Combination } from "../music/combination";
import type { Instrument } from "../music/instrument";
import type { Key } from "../music/key";
import type { Pitch } from "../music/pitch";
import type { Fraction } from "../music/rhythm";
import type { Tempo } from "../plan/exercise";
import type { Manner } from "../plan/manner";
import type { Bar, ScoreNote, ScoreRest } from "../plan/score";

export interface Sheet {
  readonly title: string;
  readonly aims: readonly string[];
  readonly instrument: Instrument;
  readonly tempo: Tempo;
  /** How many times its value a fermata lasts. */
  readonly fermata: number;
  readonly bars: readonly SheetBar[];
  /** The bars in the order they sound, repeats played out. */
  readonly order: readonly number[];
}

export interface SheetBar {
  readonly events: readonly SheetEvent[];
  /** As notated, a part of a whole note. */
  readonly length: Fraction;
  /** Undefined where bars are free. */
  readonly meter: Fraction | undefined;
  readonly freeSeconds: number | undefined;
  /** The key in force, at most seven accidentals; undefined for partials. */
  readonly key: Key | undefined;
  readonly role: Bar["role"];
  /** Which repeat it belongs to, counted through the sheet; −1 outside. */
  readonly repeat: number;
  readonly pickup: boolean;
  /** Set where the exercise begins anew in another key, combination or cell: what that is called. */
  readonly opens: string | undefined;
  /** Seconds of rest after this bar, before the exercise begins anew. */
  readonly pause: number;
}

export type SheetEvent = SheetNote | SheetRest;

export interface SheetRest extends ScoreRest {
  /** Counted through the sheet. */
  readonly id: number;
}

/** A note of the score where it is really played. */
export interface SheetNote
  extends Manner,
    Pick<ScoreNote, "kind" | "partial" | "value" | "tuplet" | "breath" | "slur" | "lipSlur" | "span"> {
  readonly id: number;
  /** Written, as the player reads it. */
  readonly pitch: Pitch;
  /** How it is fingered; undefined where the instrument has no such note. */
  readonly fingered: Combination | undefined;
}

/** The note values as printed: without what a tuplet makes of them. */
export function printedValue(event: {
  readonly value: Fraction;
  readonly tuplet: ScoreNote["tuplet"];
}): Fraction {
  const { value, tuplet } = event;
  if (tuplet === undefined) return value;
  const num = value.num * tuplet.notes;
  const den = value.den * tuplet.inTimeOf;
  const common = divisor(num, den);
  return { num: num / common, den: den / common };
}

function divisor(a: number, b: number): number {
  return b === 0 ? a : divisor(b, a % b);
}
