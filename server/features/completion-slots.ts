import type { IToken } from "chevrotain";
import type { BlockKind } from "../../grammar/statements";
import { Comma, DateText, K } from "../../grammar/tokens";
import { afterCount, is, lastOf, phrase, type Slot, TIME_UNITS, words } from "./completion-slot";
import { inExercise } from "./completion-slots-exercise";
import { inBudget, inPlayer } from "./completion-slots-player";
import { inSession } from "./completion-slots-session";
import { inChange, inTerm, inWeeks } from "./completion-slots-term";

/** What can stand next in a statement of a block, after the words that are said already. */
export function slotsAfter(block: BlockKind, said: readonly IToken[]): readonly Slot[] {
  const first = said[0];
  if (first === undefined) return ["statement"];
  const everywhere = anywhere(said, first);
  if (everywhere !== undefined) return everywhere;
  switch (block) {
    case "file":
      return inFile(said, first);
    case "area":
      return first.tokenType === K.at ? phrase(said, "at least every 4 days") : [];
    case "studio":
      return inStudio(said, first);
    case "exercise":
      return inExercise(said, first);
    case "player":
      return inPlayer(said, first);
    case "budget":
      return inBudget(said, first);
    case "asks":
      return said.length === 1 ? [words("half"), "minutes"] : afterCount(said, TIME_UNITS);
    case "term":
      return inTerm(said, first);
    case "weeks":
      return inWeeks(said, first);
    case "session":
      return inSession(said, first);
    case "assignment":
      return [];
    case "change":
      return inChange(said, first);
    case "record":
      return inRecord(said);
  }
}

/** `aim`, `goal` and `let`, which many blocks hold. */
function anywhere(said: readonly IToken[], first: IToken): readonly Slot[] | undefined {
  const last = lastOf(said);
  switch (first.tokenType) {
    case K.aim:
      return [];
    case K.goal:
      if (said.length === 2) return [words("by")];
      if (is(last, K.by)) return [words("week"), "date"];
      return is(last, K.week) ? ["week"] : [];
    case K.let:
      if (said.length === 1) return ["code"];
      if (said.length === 2) return [words("stand")];
      if (is(last, K.stand)) return [words("because", "on")];
      if (is(last, K.on)) return ["date"];
      return is(last, DateText) ? [words("because")] : [];
    default:
      return undefined;
  }
}

function inFile(said: readonly IToken[], first: IToken): readonly Slot[] {
  const last = lastOf(said);
  switch (first.tokenType) {
    case K.use:
      return said.length === 1 ? ["path"] : [];
    case K.exercise:
      if (is(last, K.like)) return ["exercise"];
      return said.length === 2 ? [words("like")] : [];
    case K.level:
    case K.student:
      if (is(last, K.like)) return ["player"];
      return said.length === 2 ? [words("like")] : [];
    case K.term:
      if (is(last, K.for, Comma)) return ["player"];
      return said.length === 2 ? [words("for")] : [];
    case K.record:
      if (said.length === 1) return [words("of")];
      return said.length === 2 ? ["term"] : [];
    case K.routine:
      if (said.length === 2) return ["minutes"];
      return said.length === 3 ? afterCount(said, words("min")) : [];
    default:
      return [];
  }
}

function inStudio(said: readonly IToken[], first: IToken): readonly Slot[] {
  if (first.tokenType !== K.finding) return [];
  if (said.length === 1) return ["code"];
  return said.length === 2 ? [words("error", "warning", "note", "off")] : [];
}

function inRecord(said: readonly IToken[]): readonly Slot[] {
  const last = lastOf(said);
  if (is(last, K.week)) return ["week"];
  if (said.length === 1 || (said.length === 2 && is(said[0], K.week))) return ["player"];
  if (is(last, K.passed, K.except)) return ["exercise"];
  if (is(last, K.in)) return ["key"];
  if (is(last, K.at)) return ["bpm"];
  if (is(last, K.felt)) return [words("1", "2", "3", "4", "5", "6", "7", "8", "9", "10")];
  if (is(last, K.not)) return [words("passed")];
  if (is(last, K.note)) return [];
  const entries = words(
    "done",
    "missed",
    "except",
    "felt",
    "passed",
    "not passed",
    "note",
    "in",
    "at",
    "once",
    "twice",
  );
  return ["exercise", "weekday", entries];
}
