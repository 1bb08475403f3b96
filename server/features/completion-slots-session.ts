import type { IToken } from "chevrotain";
import { AnyCount, Comma, Equals, Fraction, K, QuotedName, StepName, Tonic } from "../../grammar/tokens";
import {
  afterCount,
  DYNAMICS,
  is,
  lastOf,
  RESTS,
  type Slot,
  TIME_UNITS,
  travelling,
  words,
} from "./completion-slot";

const VALVES = words("open", "2", "1", "12", "23", "13", "123");

/** What can stand next in a line of a session. */
export function inSession(said: readonly IToken[], first: IToken): readonly Slot[] {
  switch (first.tokenType) {
    case K.rest:
      return said.length === 1 ? ["minutes", "seconds"] : afterCount(said, TIME_UNITS);
    case K.short:
      return said.length === 1 ? ["minutes"] : afterCount(said, words("min"));
    default:
      return is(first, QuotedName) ? inAssignment(said) : [];
  }
}

/** Behind the exercise's name: the clause that is begun, or a new one. */
function inAssignment(said: readonly IToken[]): readonly Slot[] {
  const last = lastOf(said);
  const before = said[said.length - 2];
  if (is(last, K.in, K.keys)) return ["key"];
  if (is(last, Comma)) return said.some((token) => token.tokenType === K.valves) ? [VALVES] : ["key"];
  if (is(last, K.to) && travels(said)) return said.some(isValves) ? [VALVES] : ["key"];
  if (is(last, Tonic)) {
    if (is(before, K.to)) return ["clause", "mode"];
    const keys = said.some((token) => token.tokenType === K.keys);
    const steps =
      keys && !is(before, Comma) ? ["up by half step to", "up by whole step to", "up by fourth to"] : [];
    const down = keys && !is(before, Comma) ? ["down by half step to", "down by whole step to"] : [];
    return keys ? [words(...steps, ...down, "above", "below"), "clause", "mode"] : ["clause", "mode"];
  }
  if (is(last, K.up, K.down, K.by, K.half, K.whole)) return travelling(said);
  if (is(last, K.minor, K.major) && is(before, K.by)) return [words("third")];
  if (is(last, K.step, K.third, StepName) && stepOpen(said)) return [words("to")];
  if (is(last, K.valves)) return [words("open to 123"), VALVES];
  if (is(last, K.tempo)) return ["bpm"];
  if (is(last, K.between, K.and)) return ["bpm"];
  if (is(last, Equals)) return ["bpm"];
  if (is(last, K.for)) return ["minutes"];
  if (is(last, K.to)) return is(said[said.length - 3], K.tempo) ? ["bpm"] : ["minutes"];
  if (is(last, K.dynamic)) return [DYNAMICS];
  if (is(last, K.rest)) return RESTS;
  if (is(last, K.all)) return [words("keys", "valves", "slurred", "tongued", "staccato", "tenuto")];
  if (is(last, K.drop)) return [words("when tired")];
  if (is(last, K.when)) return [words(is(before, K.drop) ? "tired" : "passed")];
  if (is(last, K.next)) return [words("round up by half step", "round up by whole step")];
  if (is(last, K.round)) return [words("up by half step", "up by whole step", "down by half step")];
  if (is(last, AnyCount)) {
    if (is(before, K.for) || (is(before, K.to) && minutesOpen(said))) return [words("min")];
    if (is(before, K.tempo, Equals)) return [words("to"), "clause"];
    if (is(before, K.between)) return [words("and")];
    if (is(before, K.rest)) return [TIME_UNITS];
    if (is(before, K.and) || (is(before, K.to) && is(said[said.length - 4], K.tempo, Equals)))
      return ["clause"];
    if (isValvesNumber(said)) return [words("to"), "clause"];
    return [words("times")];
  }
  if (is(last, Fraction) && is(before, K.tempo)) return [words("=")];
  return ["clause"];
}

function isValves(token: IToken): boolean {
  return token.tokenType === K.valves;
}

function isValvesNumber(said: readonly IToken[]): boolean {
  return (
    said.slice(0, -1).findLast((token) => !is(token, AnyCount, Comma, K.to, K.open))?.tokenType === K.valves
  );
}

/** Whether a walk waits for its end: `keys C up by half step to`. */
function travels(said: readonly IToken[]): boolean {
  const before = said[said.length - 2];
  return is(before, K.step, K.third, StepName) || is(before, K.open) || isValvesNumber(said.slice(0, -1));
}

/** Whether the step that is named last begins a walk and not the move of a next round. */
function stepOpen(said: readonly IToken[]): boolean {
  const round = said.findLastIndex((token) => token.tokenType === K.round);
  const walk = said.findLastIndex((token) => is(token, Tonic));
  return walk > round;
}

function minutesOpen(said: readonly IToken[]): boolean {
  return is(said[said.length - 4], K.for);
}
