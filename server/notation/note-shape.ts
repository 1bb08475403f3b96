/** The printed shape of a note value: its kind of note and its dots. */
import { equals, type Fraction, MOST_DOTS, NOTE_VALUES, noteValue } from "../music/rhythm";

export interface NoteShape {
  /** 1, 2, 4 … 64: whole note to sixty-fourth. */
  readonly base: number;
  readonly dots: number;
}

const SHAPES: ReadonlyMap<string, NoteShape> = new Map(
  NOTE_VALUES.flatMap((base) =>
    Array.from({ length: MOST_DOTS + 1 }, (_, dots): [string, NoteShape] => [
      keyOf(noteValue(base, dots)),
      { base, dots },
    ]),
  ),
);

function keyOf(value: Fraction): string {
  return `${value.num}/${value.den}`;
}

/** The shape of a value a single note can have; undefined for any other (five eighths). */
export function noteShape(value: Fraction): NoteShape | undefined {
  return SHAPES.get(keyOf(value));
}

/** Flags or beams: one for an eighth, none from the quarter up. */
export function flagsOf(shape: NoteShape | undefined): number {
  return shape === undefined ? 0 : Math.max(0, Math.log2(shape.base) - 2);
}

/** Whether a value is a plain note without dots. */
export function isPlain(value: Fraction): boolean {
  return NOTE_VALUES.some((base) => equals(value, noteValue(base)));
}
