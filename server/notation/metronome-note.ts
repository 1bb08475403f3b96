/**
 * The note of a metronome mark as an outline, so that no music font is needed. Drawn here from a tilted oval, a
 * stem and flags; sizes are in staff spaces, the origin at the left of the head on the line of the text.
 */

/** Code points of the metronome notes in SMuFL ("Metronome marks"), with the value each stands for. */
const NOTES: ReadonlyMap<number, number> = new Map([
  [0xeca2, 1],
  [0xeca3, 2],
  [0xeca5, 4],
  [0xeca7, 8],
  [0xeca9, 16],
  [0xecab, 32],
  [0xecad, 64],
]);
const DOT = 0xecb7;

const HEAD_WIDTH = 1.05;
const HEAD_HEIGHT = 0.72;
const STEM = 2.7;
const STEM_WIDTH = 0.12;
const FLAG = 0.7;

export interface Outline {
  /** Path data, y downwards. */
  readonly path: string;
  /** How far the text after it is moved. */
  readonly advance: number;
}

/** The outline of a run of metronome signs (a note, and dots), `space` units to a staff space; undefined for others. */
export function metronomeOutline(signs: string, space: number): Outline | undefined {
  const codes = [...signs]
    .map((sign) => sign.codePointAt(0) ?? 0)
    .filter((code) => code > 0x20 && code !== 0xa0);
  const value = NOTES.get(codes[0] ?? 0);
  if (value === undefined || codes.slice(1).some((code) => code !== DOT)) return undefined;
  const dots = codes.length - 1;
  const flags = value >= 8 ? Math.log2(value) - 2 : 0;
  const n = (spaces: number): string => String(Math.round(spaces * space));
  const middle = -HEAD_HEIGHT / 2;
  const parts = [oval(HEAD_WIDTH, HEAD_HEIGHT, middle, n)];
  // A hole runs the other way round, so that it stays open.
  if (value <= 2) parts.push(hole(value === 1 ? 0.5 : 0.78, value === 1 ? 0.52 : 0.32, middle, n));
  const right = HEAD_WIDTH - STEM_WIDTH;
  if (value > 1) {
    parts.push(`M${n(right)} ${n(middle)}V${n(-STEM)}H${n(HEAD_WIDTH)}V${n(middle)}Z`);
  }
  for (let flag = 0; flag < flags; flag++) {
    const top = -STEM + flag * FLAG;
    parts.push(
      `M${n(HEAD_WIDTH)} ${n(top)}c${n(0.05)} ${n(0.6)} ${n(0.8)} ${n(0.6)} ${n(0.5)} ${n(1.5)}c${n(0)} ${n(-0.6)} ${n(-0.3)} ${n(-0.7)} ${n(-0.5)} ${n(-0.8)}Z`,
    );
  }
  let advance = HEAD_WIDTH + (flags > 0 ? 0.6 : 0.1);
  for (let dot = 0; dot < dots; dot++) {
    parts.push(circle(advance + 0.3, middle, 0.17, n));
    advance += 0.5;
  }
  return { path: parts.join(""), advance: Math.round(advance * space) };
}

type Show = (spaces: number) => string;

/** A tilted oval as two arcs, clockwise. */
function oval(width: number, height: number, middle: number, n: Show): string {
  return `M0 ${n(middle + 0.12)}A${n(width / 2)} ${n(height / 2)} -20 0 1 ${n(width)} ${n(middle - 0.12)}A${n(width / 2)} ${n(height / 2)} -20 0 1 0 ${n(middle + 0.12)}Z`;
}

function hole(width: number, height: number, middle: number, n: Show): string {
  const left = (HEAD_WIDTH - width) / 2;
  const tilt = 0.14;
  return `M${n(left)} ${n(middle + tilt)}A${n(width / 2)} ${n(height / 2)} -30 0 0 ${n(left + width)} ${n(middle - tilt)}A${n(width / 2)} ${n(height / 2)} -30 0 0 ${n(left)} ${n(middle + tilt)}Z`;
}

function circle(x: number, y: number, radius: number, n: Show): string {
  return `M${n(x - radius)} ${n(y)}a${n(radius)} ${n(radius)} 0 1 1 ${n(2 * radius)} 0a${n(radius)} ${n(radius)} 0 1 1 ${n(-2 * radius)} 0Z`;
}
