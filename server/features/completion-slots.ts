import type { IToken } from "chevrotain";
import { matches } from "../../grammar/leaves";
import type { BlockKind } from "../../grammar/statements";
import {
  AnyCount,
  Comma,
  DateText,
  Equals,
  Fraction,
  K,
  NoteWord,
  Pitch,
  QuotedName,
  StepName,
  Tonic,
  Unit,
  Weekday,
} from "../../grammar/tokens";

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

const words = (...list: readonly string[]): Slot => ({ words: list });

const STEPS = ["half step", "whole step", "minor third", "major third", "fourth", "fifth"];
const TIME_UNITS = words("min", "s");
const DYNAMICS = words("pp", "p", "mp", "mf", "f", "ff");
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
const RESTS: readonly Slot[] = [words("equal", "none"), "seconds"];

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

function lastOf(said: readonly IToken[]): IToken | undefined {
  return said[said.length - 1];
}

function is(token: IToken | undefined, ...types: readonly IToken["tokenType"][]): boolean {
  return token !== undefined && types.some((type) => matches(token, type));
}

/** The rest of a fixed phrase, as far as it is said. */
function phrase(said: readonly IToken[], whole: string): readonly Slot[] {
  const rest = whole.split(" ").slice(said.length).join(" ");
  return rest === "" ? [] : [words(rest)];
}

function afterCount(said: readonly IToken[], unit: Slot): readonly Slot[] {
  return is(lastOf(said), AnyCount) ? [unit] : [];
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

function inExercise(said: readonly IToken[], first: IToken): readonly Slot[] {
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

/** `down by half step`, from wherever it breaks off. */
function travelling(said: readonly IToken[]): readonly Slot[] {
  const last = lastOf(said);
  if (is(last, K.moved)) return STEPS.flatMap((step) => [words(`down by ${step}`, `up by ${step}`)]);
  if (is(last, K.up, K.down)) return [words(...STEPS.map((step) => `by ${step}`))];
  if (is(last, K.by)) return [words(...STEPS)];
  if (is(last, K.half, K.whole)) return [words("step")];
  return is(last, K.minor, K.major) ? [words("third")] : [];
}

/** `G3 to A5` */
function pitches(said: readonly IToken[]): readonly Slot[] {
  if (said.length === 1) return ["pitch"];
  if (is(lastOf(said), K.to)) return ["pitch"];
  return said.length === 2 && is(lastOf(said), Pitch) ? [words("to")] : [];
}

function inPlayer(said: readonly IToken[], first: IToken): readonly Slot[] {
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

function inBudget(said: readonly IToken[], first: IToken): readonly Slot[] {
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

function inTerm(said: readonly IToken[], first: IToken): readonly Slot[] {
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

/** `DATE to DATE`, after a word. */
function fromTo(said: readonly IToken[]): readonly Slot[] {
  const last = lastOf(said);
  if (said.length === 1 || is(last, K.to)) return ["date"];
  return said.length === 2 && is(last, DateText) ? [words("to")] : [];
}

/** `Mon to Fri`, `Mon, Wed`, `every Tue`. */
function days(said: readonly IToken[], named: boolean): readonly Slot[] {
  const last = lastOf(said);
  if (is(last, K.practice, K.every, K.to, Comma)) return ["weekday"];
  if (!is(last, Weekday)) return [];
  const open = is(said[said.length - 2], K.to) ? [] : ["to"];
  return [words(...open, ...(named ? ["routine"] : []))];
}

function inWeeks(said: readonly IToken[], first: IToken): readonly Slot[] {
  const last = lastOf(said);
  if (is(last, K.routine)) return ["routine"];
  if (is(last, K.on) || (is(last, Comma) && first.tokenType === K.on)) return ["date"];
  if (is(last, K.every)) return [words("day")];
  if (is(last, QuotedName)) return is(said[said.length - 2], K.routine) ? [] : [words("routine"), "minutes"];
  if (is(last, AnyCount)) return [words("min")];
  if (is(last, K.day, DateText)) return [words("routine")];
  return is(last, Unit) ? [words("routine")] : days(said, true);
}

function inSession(said: readonly IToken[], first: IToken): readonly Slot[] {
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

const VALVES = words("open", "2", "1", "12", "23", "13", "123");

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
  return (
    is(before, K.step, K.third, StepName) || is(before, K.open) || isValvesNumber(said.slice(0, -1).concat())
  );
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

function inChange(said: readonly IToken[], first: IToken): readonly Slot[] {
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
