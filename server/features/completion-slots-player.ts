import type { IToken } from "chevrotain";
import { Comma, K, NoteWord, Tonic } from "../../grammar/tokens";
import { afterCount, is, lastOf, pitches, type Slot, TIME_UNITS, words } from "./completion-slot";

/** What can stand next in a line of a level or a student. */
export function inPlayer(said: readonly IToken[], first: IToken): readonly Slot[] {
  const last = lastOf(said);
  const alone = said.length === 1;
  switch (first.tokenType) {
    case K.instrument:
      return alone ? ["instrument"] : [];
    case K.stage:
      return alone ? [words("first year", "years 2 to 3", "senior", "college")] : [];
    case K.range:
    case K.limit:
      return pitches(said);
    case K.upper:
      if (alone) return [words("from")];
      return said.length === 2 ? ["pitch"] : [];
    case K.breath:
      return alone ? ["seconds"] : afterCount(said, words("s"));
    case K.tongue:
      if (alone) return [words("sixteenths at", "double sixteenths at", "triple sixteenths at")];
      if (is(last, NoteWord)) return [words("at")];
      return is(last, K.at) ? ["bpm"] : [];
    case K.keys:
      return alone || is(last, Comma) ? ["key"] : is(last, Tonic) ? ["mode"] : [];
    case K.each:
      return alone ? [words("day", "week")] : [];
    default:
      return [];
  }
}

/** What can stand next in a budget. */
export function inBudget(said: readonly IToken[], first: IToken): readonly Slot[] {
  if (said.length === 1) return [words("at most")];
  const last = lastOf(said);
  if (is(last, K.at)) return [words("most")];
  switch (first.tokenType) {
    case K.load:
      return afterCount(said, words("points"));
    case K.increase:
      return is(last, K.most) ? [words("15 %")] : [];
    case K.days:
      return is(last, K.most) ? [words("5", "6")] : [];
    default:
      return is(last, K.most) ? ["minutes"] : afterCount(said, TIME_UNITS);
  }
}
