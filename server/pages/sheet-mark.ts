/** The note of a metronome mark as a small picture that stands in a line of text. */
import type { Fraction } from "../music/rhythm";
import { metronomeOutline } from "../notation/metronome-note";
import { noteShape } from "../notation/note-shape";

/** Code points of metronome notes in SMuFL ("Metronome marks"), by the value of the note. */
const SIGNS: Readonly<Record<number, string>> = {
  1: "\ueca2",
  2: "\ueca3",
  4: "\ueca5",
  8: "\ueca7",
  16: "\ueca9",
  32: "\uecab",
  64: "\uecad",
};
const DOT = "\uecb7";

/** Units to a staff space of the drawing. */
const SPACE = 100;
/** The stem with its head, in staff spaces. */
const HEIGHT = 2.8;

/** The note as SVG text, its foot on the line of the text; undefined where no single note has this value. */
export function metronomePicture(beat: Fraction): string | undefined {
  const shape = noteShape(beat);
  const sign = shape === undefined ? undefined : SIGNS[shape.base];
  if (shape === undefined || sign === undefined) return undefined;
  const outline = metronomeOutline(sign + DOT.repeat(shape.dots), SPACE);
  if (outline === undefined) return undefined;
  const [width, height] = [Math.round(outline.advance), HEIGHT * SPACE];
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 -${height} ${width} ${height}"><path fill="#000" d="${outline.path}"/></svg>`;
}
