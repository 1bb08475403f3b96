import type { Piece } from "../../grammar/piece";
import type { Span } from "../../grammar/span";
import type {
  Count,
  DateText,
  Days,
  KeyText,
  PitchText,
  ShareText,
  StepWord,
  TimeText,
  ValueText,
} from "../../grammar/tree";
import {
  fifth,
  fourth,
  halfStep,
  type Interval,
  majorThird,
  minorThird,
  octave,
  wholeStep,
} from "../music/interval";
import { type Key, type Mode, parseTonic } from "../music/key";
import { midiOf, type Pitch, parsePitch } from "../music/pitch";
import { type Fraction, MOST_DOTS, NOTE_VALUES, noteValue } from "../music/rhythm";
import { parseDate, WEEKDAYS } from "./date";
import { listed, NONE } from "./listed";
import type { Place } from "./place";
import type { Trouble } from "./trouble";

/** No brass instrument sounds outside C0 to B8; what is written beyond is a slip. */
function isPlayable(midi: number): boolean {
  return midi >= 12 && midi <= 119;
}

/** The note values by four times their denominator and their dots: a book names each of them many times. */
const values: (Fraction | undefined)[] = [];
for (const base of NOTE_VALUES) {
  for (let dots = 0; dots <= MOST_DOTS; dots++) values[base * 4 + dots] = noteValue(base, dots);
}

const meters = new Map<number, Fraction>();
/** By mode and tonic. */
const keys = new Map<Mode, Map<string, Key>>();

/** Reads the leaves of a tree into units, and gathers what cannot be meant. One reader per piece. */
export class Reader {
  private noted: Trouble[] | undefined;

  constructor(readonly piece: Piece) {}

  get troubles(): readonly Trouble[] {
    return this.noted ?? NONE;
  }

  note(trouble: Trouble): void {
    this.noted = listed(this.noted, trouble);
  }

  place(node: { readonly span: Span }): Place {
    return { piece: this.piece, span: node.span };
  }

  /** A number within bounds (both included), or undefined after noting the trouble. */
  number(node: Count, what: string, least: number, most: number): number | undefined {
    if (node.value >= least && node.value <= most) return node.value;
    this.note({
      kind: "out-of-bounds",
      place: this.place(node),
      what,
      text: node.text,
      least,
      most,
    });
    return undefined;
  }

  /** Beats to the minute: metronomes go from about 20 to 300; 400 leaves room for small note values. */
  bpm(node: Count): number | undefined {
    return this.number(node, "tempo", 10, 400);
  }

  /** Seconds; more than zero and at most a day. */
  seconds(node: TimeText, what: string): number | undefined {
    let total = 0;
    for (const part of node.parts) total += part.value * UNIT_SECONDS[part.unit];
    if (total > 0 && total <= 86_400) return total;
    const text = node.parts.map((part) => `${part.value} ${part.unit}`).join(" ");
    this.note({
      kind: "out-of-bounds",
      place: this.place(node),
      what,
      text,
      least: 1,
      most: 86_400,
    });
    return undefined;
  }

  /** A share as a fraction of 1. */
  share(node: ShareText, what: string, mostPercent: number): number | undefined {
    if (node.percent > 0 && node.percent <= mostPercent) return node.percent / 100;
    this.note({
      kind: "out-of-bounds",
      place: this.place(node),
      what,
      text: node.text,
      least: 1,
      most: mostPercent,
    });
    return undefined;
  }

  date(node: DateText): number | undefined {
    const day = parseDate(node.text);
    if (day === undefined) this.note({ kind: "impossible-date", place: this.place(node), text: node.text });
    return day;
  }

  /** First and last day, both included; a missing end is the first day. */
  dates(from: DateText, to: DateText | undefined, what: string): { from: number; to: number } | undefined {
    const first = this.date(from);
    const last = to === undefined ? first : this.date(to);
    if (first === undefined || last === undefined) return undefined;
    if (first <= last) return { from: first, to: last };
    const span = { start: from.span.start, end: (to ?? from).span.end };
    this.note({
      kind: "upside-down",
      place: { piece: this.piece, span },
      what,
      low: from.text,
      high: (to ?? from).text,
    });
    return undefined;
  }

  pitch(node: PitchText): Pitch | undefined {
    const pitch = parsePitch(node.text);
    if (pitch !== undefined && isPlayable(midiOf(pitch))) return pitch;
    this.note({ kind: "impossible-pitch", place: this.place(node), text: node.text });
    return undefined;
  }

  /** Undefined mode means "as the exercise has it". */
  key(node: KeyText): { step: number; alter: number; mode: Mode | undefined } | undefined {
    const tonic = parseTonic(node.tonic);
    if (tonic === undefined) {
      this.note({ kind: "impossible-pitch", place: this.place(node), text: node.tonic });
      return undefined;
    }
    return { step: tonic.step, alter: tonic.alter, mode: modeOf(node) };
  }

  /** A key of its own, major where no mode is written. */
  wholeKey(node: KeyText): Key | undefined {
    const mode = modeOf(node) ?? "major";
    const known = keys.get(mode)?.get(node.tonic);
    if (known !== undefined) return known;
    const tonic = this.key(node);
    if (tonic === undefined) return undefined;
    const key = { step: tonic.step, alter: tonic.alter, mode };
    const ofMode = keys.get(mode);
    if (ofMode === undefined) keys.set(mode, new Map([[node.tonic, key]]));
    else ofMode.set(node.tonic, key);
    return key;
  }

  /** A note value as a part of a whole note: a power of two from whole to sixty-fourth, dots included. */
  value(node: ValueText): Fraction | undefined {
    const value = node.num === 1 && node.dots <= MOST_DOTS ? values[node.den * 4 + node.dots] : undefined;
    if (value !== undefined) return value;
    this.note({ kind: "impossible-value", place: this.place(node), text: node.text });
    return undefined;
  }

  /** A meter as a part of a whole note: 3/4, 6/8. */
  meter(node: ValueText): Fraction | undefined {
    if (node.num >= 1 && node.num <= 32 && NOTE_VALUES.includes(node.den) && node.dots === 0) {
      const key = node.den * 64 + node.num;
      let meter = meters.get(key);
      if (meter === undefined) {
        meter = { num: node.num, den: node.den };
        meters.set(key, meter);
      }
      return meter;
    }
    this.note({ kind: "impossible-value", place: this.place(node), text: node.text });
    return undefined;
  }

  /** Weekdays as a set: bit 0 is Monday. `every` is what "every day" means here. */
  weekdays(days: Days, every: number): number {
    switch (days.kind) {
      case "every day":
        return every;
      case "dates":
        return 0;
      case "weekdays": {
        let set = 0;
        for (const range of days.ranges) {
          const first = WEEKDAYS.indexOf(range.from);
          const last = range.to === undefined ? first : WEEKDAYS.indexOf(range.to);
          // "Sat to Mon" goes round the weekend.
          for (let day = first; ; day = (day + 1) % 7) {
            set |= 1 << day;
            if (day === last) break;
          }
        }
        return set;
      }
    }
  }
}

const UNIT_SECONDS = { s: 1, min: 60, h: 3600 } as const;

function modeOf(node: KeyText): Mode | undefined {
  return node.mode === "minor" ? "natural minor" : node.mode;
}

const STEPS: Readonly<Record<StepWord, Interval>> = {
  "half step": halfStep,
  "whole step": wholeStep,
  "minor third": minorThird,
  "major third": majorThird,
  fourth,
  fifth,
  octave,
};

/** The interval a step's name means, going up. */
export function stepInterval(step: StepWord): Interval {
  return STEPS[step];
}

/** Notes a second statement of the same line in one block; returns whether this is the first. */
export function firstSaid(
  reader: Reader,
  said: Map<string, Place>,
  what: string,
  node: { readonly span: Span },
): boolean {
  const first = said.get(what);
  if (first === undefined) {
    said.set(what, reader.place(node));
    return true;
  }
  reader.note({ kind: "said-twice", place: reader.place(node), what, first });
  return false;
}

/** Notes a second statement of the same line in one block, which says nothing. */
export function saidTwice(
  reader: Reader,
  what: string,
  node: { readonly span: Span },
  first: { readonly span: Span },
): void {
  reader.note({ kind: "said-twice", place: reader.place(node), what, first: reader.place(first) });
}
