import type { IToken } from "chevrotain";
import { AnyCount, Equals, K, Tonic } from "../../grammar/tokens";
import {
  afterCount,
  DYNAMICS,
  is,
  lastOf,
  pitches,
  RESTS,
  type Slot,
  TIME_UNITS,
  travelling,
  words,
} from "./completion-slot";

const ARTICULATIONS = words(
  "all slurred",
  "all tongued",
  "all staccato",
  "all tenuto",
  "double tongued",
  "triple tongued",
  "as written",
  "slur 2 tongue 2",
);

/** What can stand next in a line of an exercise. */
export function inExercise(said: readonly IToken[], first: IToken): readonly Slot[] {
  const last = lastOf(said);
  const alone = said.length === 1;
  switch (first.tokenType) {
    case K.in:
      return alone ? ["area"] : [];
    case K.key:
      if (alone) return ["key"];
      return is(last, Tonic) ? ["mode"] : [];
    case K.meter:
      return alone ? [words("4/4", "3/4", "2/4", "6/8", "2/2", "free")] : [];
    case K.tempo:
      if (alone) return ["beat"];
      if (is(last, Equals)) return ["bpm"];
      return said.length === 2 ? [words("=")] : [];
    case K.rest:
      return alone ? RESTS : afterCount(said, TIME_UNITS);
    case K.dynamic:
      return alone ? [DYNAMICS] : [];
    case K.articulation:
      return alone ? [ARTICULATIONS] : [];
    case K.rhythm:
      return [words("1/8. 1/16", "1/16 1/8.", "1/4 1/8")];
    case K.ornament:
      if (alone) return [words("trill", "turn", "mordent")];
      if (is(last, K.on)) return ["beat"];
      return said.length === 2 ? [words("on")] : [];
    case K.moved:
      return travelling(said);
    case K.series:
      if (is(last, AnyCount)) return [words("cells")];
      return alone || is(last, K.cells) ? [words("down by half step", "up by half step")] : travelling(said);
    case K.degrees:
      if (alone) return [words("from")];
      return is(last, K.from) ? ["pitch"] : [];
    case K.printed:
      if (said.length === 2) return [words("page", "bars")];
      return said.length === 4 ? [words("bars")] : [];
    case K.range:
      return pitches(said);
    case K.lasts:
    case K.upper:
      return alone ? ["minutes", "seconds"] : afterCount(said, TIME_UNITS);
    case K.activity:
      return alone ? [words("breathing", "mouthpiece", "singing", "listening", "fingering")] : [];
    case K.loads:
    case K.spares:
      return alone ? [words("lips")] : [];
    default:
      return [];
  }
}
