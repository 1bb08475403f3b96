import type { IToken, TokenType } from "chevrotain";
import { matches } from "./leaves";
import { keySlip, noteSlip } from "./note-slips";
import type { Span } from "./span";
import type { Statement } from "./statements";
import {
  AlteredDegree,
  AnyCount,
  AnyNoteWord,
  Breath,
  Comma,
  Dash,
  Dynamic,
  Equals,
  endOf,
  Fraction,
  isWord,
  K,
  Negative,
  NumberText,
  OtherDate,
  OtherSign,
  Pitch,
  QuotedName,
  StepName,
  Tonic,
  Unit,
  Weekday,
  Word,
} from "./tokens";

/** The slips that hands make most often: each is known by its tokens and told about in words of its own. */

/** What a slip looks at. */
export interface SlipPlace {
  readonly text: string;
  readonly statement: Statement;
  readonly run: readonly IToken[];
  /** Where in the run reading stopped; the run's length where the line ended too soon. */
  readonly at: number;
  /** Whether this very type of token might have stood there. */
  readonly wants: (type: TokenType) => boolean;
}

/** What is said about it. `mend` replaces the text of `span`. */
export interface Slip {
  readonly span: Span;
  readonly message: string;
  readonly mend: string | undefined;
}

function between(first: IToken, last: IToken): Span {
  return { start: first.startOffset, end: endOf(last) };
}

/** Whether nothing, not even a space, stands between two tokens. */
function joined(one: IToken | undefined, other: IToken | undefined): boolean {
  return one !== undefined && other !== undefined && endOf(one) === other.startOffset;
}

/** A date in another writing, as ours; undefined where day and month cannot be told apart. */
export function isoDate(image: string): string | undefined {
  const parts = image.split(/[^\d]/);
  const [a = "", b = "", c = ""] = parts;
  const iso = (year: string, month: string, day: string): string =>
    `${year.length === 2 ? `20${year}` : year}-${month.padStart(2, "0")}-${day.padStart(2, "0")}`;
  if (a.length === 4) return iso(a, b, c);
  if (c.length !== 4 && c.length !== 2) return undefined;
  if (!image.includes("/")) return iso(c, b, a);
  if (Number(a) > 12) return iso(c, b, a);
  return Number(b) > 12 ? iso(c, a, b) : undefined;
}

function otherDate({ run, at }: SlipPlace): Slip | undefined {
  const token = run[at];
  if (token?.tokenType !== OtherDate) return undefined;
  const iso = isoDate(token.image);
  const message = `A date is written year-month-day: \`${iso ?? "2026-09-07"}\`.`;
  return { span: between(token, token), message, mend: iso };
}

/** `Mon–Fri`, `2026-09-07 - 2026-12-11`, `weeks 1-4`, `G3-A5` */
function dash({ text, run, at }: SlipPlace): Slip | undefined {
  const token = run[at];
  const before = run[at - 1];
  const next = run[at + 1];
  if (token === undefined) return undefined;
  const say = (span: Span, mend: string): Slip => ({
    span,
    message: `From one to the other is written with \`to\`: \`${mend}\`.`,
    mend,
  });
  if (token.tokenType === Dash && before !== undefined && next !== undefined) {
    const from = text.slice(before.startOffset, endOf(before));
    const to = text.slice(next.startOffset, endOf(next));
    return say(between(before, next), `${from} to ${to}`);
  }
  if (token.tokenType === Negative && before !== undefined && matches(before, AnyCount)) {
    return say(between(before, token), `${before.image} to ${token.image.slice(1)}`);
  }
  const [, from = "", to = ""] = /^([A-Za-z]+\d*)-([A-Za-z]+\d*)$/.exec(token.image) ?? [];
  const range = /^(?:[A-G](?:##?|bb?)?\d|(?:Mon|Tue|Wed|Thu|Fri|Sat|Sun)(?:day|sday|nesday|rsday|urday)?)$/;
  if (range.test(from) && range.test(to)) return say(between(token, token), `${from} to ${to}`);
  return undefined;
}

/** `2,5` */
function decimalComma({ run, at }: SlipPlace): Slip | undefined {
  const [before, comma, after] = run.slice(Math.max(0, at - 1), at + 2);
  if (comma?.tokenType !== Comma || before?.tokenType !== NumberText || after?.tokenType !== NumberText) {
    return undefined;
  }
  if (!joined(before, comma) || !joined(comma, after)) return undefined;
  const mend = `${before.image}.${after.image}`;
  return { span: between(before, after), message: `A decimal is written with a point: \`${mend}\`.`, mend };
}

/** `F #4`, `#comment`, `tempo: 60`, `…;` */
function sign({ run, at, wants }: SlipPlace): Slip | undefined {
  const token = run[at];
  const before = run[at - 1];
  const next = run[at + 1];
  if (token === undefined) return undefined;
  if (token.tokenType === Tonic && next?.tokenType === AlteredDegree && wants(Pitch)) {
    const mend = `${token.image}${next.image}`;
    return { span: between(token, next), message: `A note is written without a space: \`${mend}\`.`, mend };
  }
  if (token.tokenType === AlteredDegree && before?.tokenType === Tonic && /^[#♯♭]/.test(token.image)) {
    const mend = `${before.image}${token.image}`;
    return { span: between(before, token), message: `A note is written without a space: \`${mend}\`.`, mend };
  }
  if (token.image.startsWith("#") && token.tokenType !== Tonic) {
    const span = { start: token.startOffset, end: token.startOffset + 1 };
    const space = joined(before, token) ? " # " : "# ";
    return { span, message: "A comment has a space before and after its `#`.", mend: space };
  }
  if (token.tokenType !== OtherSign) return undefined;
  const span = between(token, token);
  if (token.image === ":" || token.image === ";") {
    return { span, message: `No \`${token.image}\` is needed here. Take it away.`, mend: "" };
  }
  return { span, message: `The sign \`${token.image}\` means nothing here.`, mend: undefined };
}

const UNITS: ReadonlyMap<string, string> = new Map([
  ...["sec", "secs", "second", "seconds", "S", "sek"].map((word) => [word, "s"] as const),
  ...["mins", "minute", "minutes", "m", "Min", "mn"].map((word) => [word, "min"] as const),
  ...["hr", "hrs", "hour", "hours", "H", "std"].map((word) => [word, "h"] as const),
]);

/** `20 sec`, `breath 10`, `for 30 s` */
function unit({ run, at, statement, wants }: SlipPlace): Slip | undefined {
  const before = run[at - 1];
  if (before === undefined || !matches(before, AnyCount)) return undefined;
  const token = run[at];
  if (wants(K.min)) {
    if (token?.tokenType === K.s && before.tokenType === NumberText) {
      const minutes = `${Math.round(Number(before.image) / 0.6) / 100} min`;
      return {
        span: between(before, token),
        message: `\`for\` counts minutes: \`for ${minutes}\`.`,
        mend: minutes,
      };
    }
  } else if (!wants(Unit)) return undefined;
  const right = token === undefined ? undefined : UNITS.get(token.image);
  if (token !== undefined && right !== undefined) {
    return {
      span: between(token, token),
      message: `\`${token.image}\` is written \`${right}\`.`,
      mend: right,
    };
  }
  const usual = / (s|min|h)\b/.exec(statement.example)?.[1] ?? "min";
  const own = wants(K.min) ? "min" : usual;
  const what = wants(K.min)
    ? "Minutes need their unit"
    : "A length of time needs its unit, `s`, `min` or `h`";
  const mend = `${before.image} ${own}`;
  return { span: between(before, before), message: `${what}: \`${mend}\`.`, mend };
}

/** `tempo 72` */
function bareTempo({ run, at, wants }: SlipPlace): Slip | undefined {
  const token = run[at];
  if (token === undefined || run[at - 1]?.tokenType !== K.tempo || !wants(Fraction)) return undefined;
  if (!matches(token, AnyCount) || run[at + 1]?.tokenType === Equals) return undefined;
  const mend = `1/4 = ${token.image}`;
  return {
    span: between(token, token),
    message: `A tempo says which note value is counted: \`tempo ${mend}\`.`,
    mend,
  };
}

function note({ run, at, wants }: SlipPlace): Slip | undefined {
  const token = run[at];
  if (token === undefined) return undefined;
  const next = run[at + 1];
  const word =
    joined(token, next) && next?.tokenType === AlteredDegree ? `${token.image}${next.image}` : token.image;
  const last = word === token.image || next === undefined ? token : next;
  const slip = wants(Pitch) ? noteSlip(word) : wants(Tonic) ? keySlip(word) : undefined;
  return slip && { span: between(token, last), message: slip.message, mend: slip.mend };
}

/** `Tues`, `mon`, `Thurs` */
function weekday({ run, at, wants }: SlipPlace): Slip | undefined {
  const token = run[at];
  if (token?.tokenType !== Word || !wants(Weekday)) return undefined;
  const short = weekdayOf(token.image);
  if (short === undefined) return undefined;
  return { span: between(token, token), message: `\`${token.image}\` is written \`${short}\`.`, mend: short };
}

/** The weekday that a word stands for in another writing. */
export function weekdayOf(word: string): string | undefined {
  if (!/^(?:mon|tues?|wed(?:nes)?|thu(?:rs?)?|fri|sat(?:ur)?|sun)(?:days?)?$/i.test(word)) return undefined;
  return word.charAt(0).toUpperCase() + word.slice(1, 3).toLowerCase();
}

/** `exercise Slow fifths`, `'Slow fifths'` */
function unquoted({ text, run, at, wants, statement }: SlipPlace): Slip | undefined {
  const token = run[at];
  if (token === undefined || !wants(QuotedName)) return undefined;
  // After an assignment's name another name only begins the next one; a stray word is not meant as that.
  if (statement.block === "assignment" && at > 0) return undefined;
  if (token.tokenType !== Breath) return unquotedName(text, run, at);
  const close = run.findIndex((other, i) => i > at && other.tokenType === Breath);
  if (close < 0) return undefined;
  const mend = `"${text.slice(endOf(token), run[close]!.startOffset)}"`;
  return { span: between(token, run[close]!), message: "A name stands in double quotes.", mend };
}

/** The words from here on as a name, as far as they can belong to one. */
export function unquotedName(text: string, run: readonly IToken[], at: number): Slip | undefined {
  let end = at;
  for (let token = run[end]; token !== undefined; token = run[end]) {
    const type = token.tokenType;
    const before = end > at ? run[end - 1] : undefined;
    const dot = type === OtherSign && token.image === "." && joined(before, token);
    const goesOn = end === at || (joined(before, token) && before?.image === ".");
    // A word of the language that stands behind a name more likely goes on with the line.
    if (!dot && type !== Word && type !== Tonic && !(goesOn && isWord(token))) break;
    end++;
  }
  if (end === at) return undefined;
  const span = between(run[at]!, run[end - 1]!);
  const mend = `"${text.slice(span.start, span.end)}"`;
  return { span, message: `A name stands in double quotes: \`${mend}\`.`, mend };
}

/** `x2`, `2x`, `3 x` */
function timesX({ run, at, wants }: SlipPlace): Slip | undefined {
  const token = run[at];
  if (token === undefined) return undefined;
  const before = run[at - 1];
  const [, figure] = /^x(\d+)$/i.exec(token.image) ?? [];
  if (figure !== undefined) return times(between(token, token), figure);
  if (/^[xX×]$/.test(token.image)) {
    const next = run[at + 1];
    if (wants(K.times) && before !== undefined) return times(between(before, token), before.image);
    if (next?.tokenType === NumberText) return times(between(token, next), next.image);
  }
  return undefined;
}

function times(span: Span, count: string): Slip {
  const mend = count === "1" ? "once" : count === "2" ? "twice" : `${count} times`;
  return {
    span,
    message: `How often is written like \`once\`, \`twice\` or \`3 times\`: \`${mend}\`.`,
    mend,
  };
}

const DYNAMICS: ReadonlyMap<string, string> = new Map([
  ["pianissimo", "pp"],
  ["piano", "p"],
  ["soft", "p"],
  ["mezzopiano", "mp"],
  ["mezzoforte", "mf"],
  ["forte", "f"],
  ["loud", "f"],
  ["fortissimo", "ff"],
]);

/** A dynamic written out, as its sign. */
export function dynamicSign(word: string): string | undefined {
  return DYNAMICS.get(word.toLowerCase().replace("-", ""));
}

function dynamic({ run, at, wants }: SlipPlace): Slip | undefined {
  const token = run[at];
  const short = token === undefined || !wants(Dynamic) ? undefined : dynamicSign(token.image);
  if (token === undefined || short === undefined) return undefined;
  return {
    span: between(token, token),
    message: `A dynamic is written with its sign: \`${short}\`.`,
    mend: short,
  };
}

/** `4` for `1/4`, `meter 4` */
function value({ run, at, wants }: SlipPlace): Slip | undefined {
  const token = run[at];
  if (token?.tokenType !== NumberText || !wants(Fraction)) return undefined;
  if (run[at - 1]?.tokenType === K.meter) {
    const mend = `${token.image}/4`;
    return { span: between(token, token), message: `A meter is written like \`${mend}\`.`, mend };
  }
  if (!wants(AnyNoteWord) || !/^(?:1|2|4|8|16|32|64)$/.test(token.image)) return undefined;
  const mend = `1/${token.image}`;
  return {
    span: between(token, token),
    message: `A note value is written as a fraction of a whole note: \`${mend}\`.`,
    mend,
  };
}

const STEPS: ReadonlyMap<string, string> = new Map([
  ["halfstep", "half step"],
  ["half-step", "half step"],
  ["half-steps", "half step"],
  ["semitone", "half step"],
  ["semitones", "half step"],
  ["wholestep", "whole step"],
  ["whole-step", "whole step"],
  ["tone", "whole step"],
  ["tones", "whole step"],
  ["fourths", "fourth"],
  ["fifths", "fifth"],
]);

/** `keys C up by semitone to G`, `keys C to G` */
function step({ run, at, wants }: SlipPlace): Slip | undefined {
  const token = run[at];
  if (token === undefined) return undefined;
  const right = wants(StepName) ? STEPS.get(token.image.toLowerCase()) : undefined;
  if (right !== undefined) {
    return {
      span: between(token, token),
      message: `\`${token.image}\` is written \`${right}\`.`,
      mend: right,
    };
  }
  if (token.tokenType === K.to && run[at - 1]?.tokenType === Tonic && run[at - 2]?.tokenType === K.keys) {
    const key = run[at - 1]!.image;
    return {
      span: between(token, token),
      message: `Keys that walk say in which steps: \`keys ${key} up by half step to …\`.`,
      mend: "up by half step to",
    };
  }
  return undefined;
}

/** `"Slow fifths" key C` */
function keyForIn({ run, at, statement }: SlipPlace): Slip | undefined {
  const token = run[at];
  if (token?.tokenType !== K.key || statement.block !== "assignment") return undefined;
  return {
    span: between(token, token),
    message: "The key of an assignment is written with `in`: `in C`, `in A minor`.",
    mend: "in",
  };
}

/** `in E flat`, `keys F sharp` */
function spokenAccidental({ run, at }: SlipPlace): Slip | undefined {
  const token = run[at];
  const tonic = run[at - 1];
  if (token === undefined || tonic?.tokenType !== Tonic || !/^(?:flat|sharp)$/i.test(token.image))
    return undefined;
  const key = `${tonic.image}${/^flat$/i.test(token.image) ? "b" : "#"}`;
  const message = `\`${tonic.image} ${token.image}\` is written \`${key}\`.`;
  return { span: between(tonic, token), message, mend: key };
}

/** `in C, D`, `in F below` */
function severalKeys({ run, at, statement }: SlipPlace): Slip | undefined {
  const token = run[at];
  const word = run[at - 2];
  if (token === undefined || word?.tokenType !== K.in || statement.block !== "assignment") return undefined;
  if (token.tokenType !== Comma && token.tokenType !== K.below && token.tokenType !== K.above)
    return undefined;
  const message =
    "One key is asked for with `in`; several, or one `above` or `below`, with `keys`: `keys C, D`.";
  return { span: between(word, word), message, mend: "keys" };
}

/** `tempo 66 growing to 72` */
function growing({ run, at }: SlipPlace): Slip | undefined {
  const token = run[at];
  if (token === undefined || !/^(?:growing|rising|up)$/i.test(token.image)) return undefined;
  const next = run[at + 1];
  if (next?.tokenType !== K.to) return undefined;
  return {
    span: between(token, next),
    message: "Growth is written with `to` alone: `50 to 58`.",
    mend: "to",
  };
}

const SLIPS = [
  spokenAccidental,
  severalKeys,
  growing,
  otherDate,
  decimalComma,
  dash,
  sign,
  unit,
  bareTempo,
  value,
  step,
  keyForIn,
  note,
  weekday,
  timesX,
  dynamic,
  unquoted,
];

/** The first slip that is known at this place. */
export function knownSlip(place: SlipPlace): Slip | undefined {
  for (const slip of SLIPS) {
    const found = slip(place);
    if (found !== undefined) return found;
  }
  return undefined;
}
