import type { IToken } from "chevrotain";
import { AnyCount, Comma, DateText, K, QuotedName, Unit, Weekday } from "../../grammar/tokens";
import { days, fromTo, is, lastOf, phrase, type Slot, words } from "./completion-slot";

/** What can stand next in a line of a term. */
export function inTerm(said: readonly IToken[], first: IToken): readonly Slot[] {
  const last = lastOf(said);
  const alone = said.length === 1;
  switch (first.tokenType) {
    case K.from:
      return fromTo(said);
    case K.practice:
      return days(said, false);
    case K.closed:
    case K.light:
      return fromTo(said);
    case K.no:
      return alone ? [words("lesson")] : fromTo(said.slice(1));
    case K.lesson:
    case K.booked:
    case K.short:
    case K.concert:
      if (alone) return first.tokenType === K.concert ? ["date"] : [words("every"), "date"];
      if (is(last, K.from, K.to) && !is(said[said.length - 2], Weekday)) return ["date"];
      if (is(last, DateText)) return is(said[said.length - 2], K.from) ? [words("to")] : [];
      return days(said, false);
    case K.ease:
      if (alone) return [words("3 days before concerts to half")];
      return phrase(said, "ease 3 days before concerts to half");
    case K.weeks:
    case K.week:
      if (alone || is(last, K.to, Comma)) return ["week"];
      return is(last, AnyCount) && !is(said[said.length - 2], K.to) ? [words("to")] : [];
    case K.every:
      return alone ? [words("week")] : [];
    case K.change:
      return alone ? ["player"] : [];
    default:
      return [];
  }
}

/** What can stand next in the heading of a session. */
export function inWeeks(said: readonly IToken[], first: IToken): readonly Slot[] {
  const last = lastOf(said);
  if (is(last, K.routine)) return ["routine"];
  if (is(last, K.on) || (is(last, Comma) && first.tokenType === K.on)) return ["date"];
  if (is(last, K.every)) return [words("day")];
  if (is(last, QuotedName)) return is(said[said.length - 2], K.routine) ? [] : [words("routine"), "minutes"];
  if (is(last, AnyCount)) return [words("min")];
  if (is(last, K.day, DateText)) return [words("routine")];
  return is(last, Unit) ? [words("routine")] : days(said, true);
}

/** What can stand next in a change for one student. */
export function inChange(said: readonly IToken[], first: IToken): readonly Slot[] {
  const last = lastOf(said);
  if (is(last, K.weeks, K.week)) return ["week"];
  if (is(last, K.from)) return ["date"];
  if (is(last, K.to)) return said.some((token) => is(token, K.weeks, K.week)) ? ["week"] : ["date"];
  const when = words("weeks", "from");
  switch (first.tokenType) {
    case K.replace:
      if (said.length === 1 || is(last, K.with)) return ["exercise"];
      if (said.length === 2) return [words("with")];
      return said.length === 4 ? [when] : fromWeeks(said);
    case K.leave:
      if (said.length === 1) return [words("out")];
      if (said.length === 2) return ["exercise"];
      return said.length === 3 ? [when] : fromWeeks(said);
    case K.ill:
      return fromTo(said);
    case K.back:
      return said.length < 3 ? phrase(said, "back at half") : fromTo(said.slice(2));
    default:
      return [];
  }
}

function fromWeeks(said: readonly IToken[]): readonly Slot[] {
  const before = said[said.length - 2];
  return is(before, K.weeks, K.from) ? [words("to")] : [];
}
