/**
 * Note values as exact fractions of a whole note, and their names.
 *
 * Bars are filled, tied and divided by threes and fives; only exact arithmetic can say whether a bar is
 * full. Floating point enters once, when a value becomes seconds.
 */

/** A fraction in lowest terms with a positive denominator; both parts are safe integers. */
export interface Fraction {
  readonly num: number;
  readonly den: number;
}

export const ZERO: Fraction = { num: 0, den: 1 };
export const ONE: Fraction = { num: 1, den: 1 };

/**
 * A fraction in lowest terms. Throws a RangeError for a zero denominator and for parts that are not safe
 * integers, so that an overflow is never a slightly wrong bar.
 */
export function fraction(num: number, den: number): Fraction {
  if (!Number.isSafeInteger(num) || !Number.isSafeInteger(den)) {
    throw new RangeError("a note value grew beyond exact arithmetic");
  }
  if (den === 0) throw new RangeError("a fraction needs a denominator other than zero");
  const common = greatestCommonDivisor(num, den) * (den < 0 ? -1 : 1);
  // Adding zero turns −0 into 0, so that equal fractions are equal data.
  return lowest(num / common + 0, den / common);
}

/** Fractions up to so many parts of a sixty-fourth or longer are shared: nearly all values and bars that are written. */
const SHARED_PARTS = 128;
const SHARED_DENOMINATORS = 64;

/** The shared fractions by their denominator, and of one denominator by their numerator. */
const shared: (readonly Fraction[] | undefined)[] = [];

/** The fraction of two parts that have nothing in common; the same object wherever a common one occurs. */
function lowest(num: number, den: number): Fraction {
  if (num < 0 || num > SHARED_PARTS || den > SHARED_DENOMINATORS) return { num, den };
  let ofOne = shared[den];
  if (ofOne === undefined) {
    ofOne = Array.from({ length: SHARED_PARTS + 1 }, (_, parts) => ({ num: parts, den }));
    shared[den] = ofOne;
  }
  return ofOne[num]!;
}

function greatestCommonDivisor(a: number, b: number): number {
  let larger = Math.abs(a);
  let smaller = Math.abs(b);
  while (smaller !== 0) {
    const rest = larger % smaller;
    larger = smaller;
    smaller = rest;
  }
  return larger;
}

/** a + b. Throws a RangeError beyond exact arithmetic. */
export function add(a: Fraction, b: Fraction): Fraction {
  if (a.den === b.den) return fraction(a.num + b.num, a.den);
  const common = greatestCommonDivisor(a.den, b.den);
  const scale = b.den / common;
  return fraction(safe(a.num * scale) + safe(b.num * (a.den / common)), a.den * scale);
}

/** The values of all of them together. Throws a RangeError beyond exact arithmetic. */
export function totalValue(notes: readonly { readonly value: Fraction }[]): Fraction {
  let num = 0;
  let den = 1;
  for (const { value } of notes) {
    // Note values mostly divide each other; those are counted in the smaller without a fraction for each sum.
    if (den === value.den) num += value.num;
    else if (den % value.den === 0) num += value.num * (den / value.den);
    else if (value.den % den === 0) {
      num = num * (value.den / den) + value.num;
      den = value.den;
    } else {
      const sum = add(fraction(num, den), value);
      num = sum.num;
      den = sum.den;
    }
  }
  return fraction(num, den);
}

/** a − b. Throws a RangeError beyond exact arithmetic. */
export function subtract(a: Fraction, b: Fraction): Fraction {
  return add(a, { num: 0 - b.num, den: b.den });
}

/** a × b. Throws a RangeError beyond exact arithmetic. */
export function multiply(a: Fraction, b: Fraction): Fraction {
  const one = greatestCommonDivisor(a.num, b.den);
  const other = greatestCommonDivisor(b.num, a.den);
  return fraction((a.num / one) * (b.num / other), (a.den / other) * (b.den / one));
}

/** a ÷ b. Throws a RangeError when b is zero and beyond exact arithmetic. */
export function divide(a: Fraction, b: Fraction): Fraction {
  if (b.num === 0) throw new RangeError("a note value cannot be divided by zero");
  return multiply(a, { num: b.den, den: b.num });
}

/** Negative when a < b, zero when equal, positive when a > b. Throws a RangeError beyond exact arithmetic. */
export function compare(a: Fraction, b: Fraction): number {
  if (a.den === b.den) return a.num - b.num;
  return safe(a.num * b.den) - safe(b.num * a.den);
}

/** Whether two fractions are the same number. */
export function equals(a: Fraction, b: Fraction): boolean {
  return a.num === b.num && a.den === b.den;
}

/** The nearest floating-point number. */
export function toNumber(a: Fraction): number {
  return a.num / a.den;
}

/** The fraction as the language types a note value, always with its denominator: `1/4`, `3/8`, `1/1`. */
export function fractionText(a: Fraction): string {
  return `${a.num}/${a.den}`;
}

function safe(value: number): number {
  if (!Number.isSafeInteger(value)) throw new RangeError("a note value grew beyond exact arithmetic");
  return value;
}

/** The denominators of undotted note values, whole note to sixty-fourth. */
export const NOTE_VALUES: readonly number[] = [1, 2, 4, 8, 16, 32, 64];

/** The most dots a note may carry. */
export const MOST_DOTS = 3;

/**
 * A note value as a fraction of a whole note: `base` 1, 2, 4 … 64, `dots` 0–3, each dot adding half of
 * what the last one added. Throws a RangeError for any other base or number of dots.
 */
export function noteValue(base: number, dots = 0): Fraction {
  if (!NOTE_VALUES.includes(base)) throw new RangeError(`there is no 1/${base} note`);
  if (!Number.isInteger(dots) || dots < 0 || dots > MOST_DOTS) throw new RangeError(`${dots} dots`);
  const parts = 2 ** dots;
  return fraction(2 * parts - 1, base * parts);
}

/**
 * A value inside a tuplet of `notes` in the time of `inTheTimeOf`: a triplet eighth is 1/8 × 2/3. Both
 * counts are whole numbers from 1.
 */
export function inTuplet(value: Fraction, notes: number, inTheTimeOf: number): Fraction {
  if (notes < 1 || inTheTimeOf < 1) throw new RangeError(`a tuplet of ${notes} in ${inTheTimeOf}`);
  return multiply(value, fraction(inTheTimeOf, notes));
}

/** The American names, which messages use, and the British ones, which may be typed; by denominator. */
const VALUE_WORDS: readonly {
  readonly base: number;
  readonly one: string;
  readonly many: string;
  readonly british: string;
}[] = [
  { base: 1, one: "whole", many: "whole notes", british: "semibreve" },
  { base: 2, one: "half", many: "half notes", british: "minim" },
  { base: 4, one: "quarter", many: "quarters", british: "crotchet" },
  { base: 8, one: "eighth", many: "eighths", british: "quaver" },
  { base: 16, one: "sixteenth", many: "sixteenths", british: "semiquaver" },
  { base: 32, one: "thirty-second", many: "thirty-seconds", british: "demisemiquaver" },
  { base: 64, one: "sixty-fourth", many: "sixty-fourths", british: "hemidemisemiquaver" },
];

const DOT_WORDS: readonly string[] = ["", "dotted ", "double-dotted ", "triple-dotted "];

/** A note value in words: "dotted quarter", "triplet eighth"; one with no single note is typed (`5/8`). */
export function valueName(value: Fraction): string {
  return named(value, "one");
}

/** A note value in words, as musicians say a speed: "sixteenths", "dotted quarters", "half notes". */
export function valuesName(value: Fraction): string {
  return named(value, "many");
}

function named(value: Fraction, number: "one" | "many"): string {
  for (let dots = 0; dots <= MOST_DOTS; dots++) {
    for (const words of VALUE_WORDS) {
      if (equals(value, noteValue(words.base, dots))) return `${DOT_WORDS[dots]}${words[number]}`;
    }
  }
  for (const words of VALUE_WORDS) {
    if (equals(value, inTuplet(noteValue(words.base), 3, 2))) return `triplet ${words[number]}`;
  }
  return fractionText(value);
}

const VALUES_BY_WORD: ReadonlyMap<string, number> = new Map(
  VALUE_WORDS.flatMap(({ base, one, british }) =>
    [one, `${one}s`, british, `${british}s`, ...(base === 2 ? ["halves"] : [])].map(
      (word): [string, number] => [word, base],
    ),
  ),
);

const TYPED_VALUE =
  /^(?:(dotted|double-dotted|triple-dotted|triplet)\s+)?([a-z]+(?:-[a-z]+)??)(?:[\s-]+notes?)?$/;

/**
 * Reads a note value typed as words, in lower case, one or many, American or British: `quarter`,
 * `dotted eighths`, `half note`, `crotchets`, `triplet quavers`. Undefined for other text.
 */
export function valueFromName(text: string): Fraction | undefined {
  const found = TYPED_VALUE.exec(text.trim());
  const base = VALUES_BY_WORD.get(found?.[2] ?? "");
  if (base === undefined) return undefined;
  const kind = found?.[1];
  if (kind === "triplet") return inTuplet(noteValue(base), 3, 2);
  return noteValue(base, kind === undefined ? 0 : DOT_WORDS.indexOf(`${kind} `));
}

/**
 * How long a note value lasts, in seconds: (value ÷ the tempo's note value) × 60 ÷ beats a minute.
 * `bpm` must be above zero.
 */
export function seconds(value: Fraction, beat: Fraction, bpm: number): number {
  return (value.num * beat.den * 60) / (value.den * beat.num * bpm);
}

/** How many notes of a value pass in a second at a tempo: sixteenths at quarter = 60 pass at 4 a second. */
export function notesPerSecond(value: Fraction, beat: Fraction, bpm: number): number {
  return (value.den * beat.num * bpm) / (value.num * beat.den * 60);
}
