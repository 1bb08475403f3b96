import type { IToken } from "chevrotain";
import { matches } from "../../grammar/leaves";
import { AnyCount, Comma, DateText, K, Pitch, Weekday } from "../../grammar/tokens";

/** One kind of thing that can stand at the cursor. */
export type Slot =
  | "statement"
  | "exercise"
  | "area"
  | "player"
  | "routine"
  | "term"
  | "path"
  | "key"
  | "mode"
  | "bpm"
  | "beat"
  | "pitch"
  | "date"
  | "weekday"
  | "week"
  | "instrument"
  | "code"
  | "clause"
  | "minutes"
  | "seconds"
  | { readonly words: readonly string[] };

/** Words that may stand there as they are. */
export const words = (...list: readonly string[]): Slot => ({ words: list });

export const STEPS = ["half step", "whole step", "minor third", "major third", "fourth", "fifth"] as const;
export const TIME_UNITS = words("min", "s");
export const DYNAMICS = words("pp", "p", "mp", "mf", "f", "ff");
/** What may follow `rest`. */
export const RESTS: readonly Slot[] = [words("equal", "none"), "seconds"];

/** The word before the one being typed. */
export function lastOf(said: readonly IToken[]): IToken | undefined {
  return said[said.length - 1];
}

/** Whether a token is of one of these types. */
export function is(token: IToken | undefined, ...types: readonly IToken["tokenType"][]): boolean {
  return token !== undefined && types.some((type) => matches(token, type));
}

/** The rest of a fixed phrase, as far as it is said. */
export function phrase(said: readonly IToken[], whole: string): readonly Slot[] {
  const rest = whole.split(" ").slice(said.length).join(" ");
  return rest === "" ? [] : [words(rest)];
}

/** A unit behind a number. */
export function afterCount(said: readonly IToken[], unit: Slot): readonly Slot[] {
  return is(lastOf(said), AnyCount) ? [unit] : [];
}

/** `down by half step`, from wherever it breaks off. */
export function travelling(said: readonly IToken[]): readonly Slot[] {
  const last = lastOf(said);
  if (is(last, K.moved)) return STEPS.flatMap((step) => [words(`down by ${step}`, `up by ${step}`)]);
  if (is(last, K.up, K.down)) return [words(...STEPS.map((step) => `by ${step}`))];
  if (is(last, K.by)) return [words(...STEPS)];
  if (is(last, K.half, K.whole)) return [words("step")];
  return is(last, K.minor, K.major) ? [words("third")] : [];
}

/** `G3 to A5` */
export function pitches(said: readonly IToken[]): readonly Slot[] {
  if (said.length === 1) return ["pitch"];
  if (is(lastOf(said), K.to)) return ["pitch"];
  return said.length === 2 && is(lastOf(said), Pitch) ? [words("to")] : [];
}

/** `DATE to DATE`, after a word. */
export function fromTo(said: readonly IToken[]): readonly Slot[] {
  const last = lastOf(said);
  if (said.length === 1 || is(last, K.to)) return ["date"];
  return said.length === 2 && is(last, DateText) ? [words("to")] : [];
}

/** `Mon to Fri`, `Mon, Wed`, `every Tue`. */
export function days(said: readonly IToken[], named: boolean): readonly Slot[] {
  const last = lastOf(said);
  if (is(last, K.practice, K.every, K.to, Comma)) return ["weekday"];
  if (!is(last, Weekday)) return [];
  const open = is(said[said.length - 2], K.to) ? [] : ["to"];
  return [words(...open, ...(named ? ["routine"] : []))];
}
