/** An exercise in one key as a picture to be engraved for a page, with what is said of it to those who do not see it. */
import { type Placement, placementName } from "../days/placement";
import { midiOf, type Pitch, pitchSign, spokenPitch } from "../music/pitch";
import { inColour } from "../notation/clean-svg";
import { type Density, type EngravingTask, PIXELS } from "../notation/engrave";
import { type Layout, layoutOf } from "../notation/line-breaks";
import { musicXmlOf } from "../notation/musicxml";
import type { Sheet } from "../notation/sheet";
import { type SheetAsk, writtenOut } from "../notation/write-out";

/** How notation is set on a page. */
export interface Look {
  /** Height of the five lines, in millimetres. */
  readonly staff: number;
  /** Width that there is, in millimetres. */
  readonly width: number;
  readonly fingerings: boolean;
  /** Width of the room beside the words, in millimetres, for music that takes no more lines there. */
  readonly beside?: number | undefined;
  /** How near things stand to each other; `roomy` where nothing is said. */
  readonly density?: Density | undefined;
}

export interface Picture {
  readonly task: EngravingTask;
  /** What the picture shows: “Slow fifths in F major, 8 bars, from low F to third-space C”. */
  readonly alt: string;
  /** Millimetres to a pixel of the engraving. */
  readonly scale: number;
  /** Whether it fits beside the words. */
  readonly beside: boolean;
  /** How many lines of music it has. */
  readonly lines: number;
  /** The width it may take on the page, in millimetres. */
  readonly room: number;
  /** The lowest and the highest note; undefined where there is none. */
  readonly range: readonly [low: Pitch, high: Pitch] | undefined;
}

/** Pixels of the engraving to the height of a staff: four spaces of 18 units. */
export const STAFF_PIXELS = 4 * 18 * PIXELS;

export interface PictureAsk extends Omit<SheetAsk, "placements"> {
  readonly placement: Placement;
}

/** The picture of an exercise where it is placed; undefined for what has no notes. */
export function pictureOf(ask: PictureAsk, look: Look): Picture | undefined {
  const { placement, exercise } = ask;
  const written = writtenOut({ ...ask, placements: [placement] });
  if (written.kind !== "sheet") return undefined;
  const sheet = joined(written.sheet);
  const scale = look.staff / STAFF_PIXELS;
  const within = (width: number): Layout =>
    layoutOf(sheet, width / scale / PIXELS, look.fingerings, look.density === "close");
  const wide = within(look.width);
  const narrow = look.beside === undefined ? undefined : within(look.beside);
  const beside = narrow !== undefined && narrow.breaks.size <= wide.breaks.size;
  const layout = beside ? narrow : wide;
  const where = placementName(placement);
  const alt = altText(sheet, exercise.name, where);
  return {
    alt,
    scale,
    beside,
    lines: layout.breaks.size + 1,
    room: beside ? (look.beside ?? look.width) : look.width,
    range: rangeOf(sheet),
    task: {
      musicXml: musicXmlOf(sheet, {
        fingerings: look.fingerings ? "line" : "none",
        ids: false,
        breaks: layout.breaks,
        // Pages say it in the line above, with the rest of what is asked.
        tempo: "unseen",
      }),
      width: layout.width,
      broken: layout.breaks.size > 0,
      title: alt,
      density: look.density,
    },
  };
}

/** The cells of a series one after the other on a line, and without the rest that the page says in words. */
function joined(sheet: Sheet): Sheet {
  return { ...sheet, bars: sheet.bars.map((bar) => ({ ...bar, opens: undefined, pause: 0 })) };
}

function altText(sheet: Sheet, name: string, where: string): string {
  const bars = sheet.bars.filter((bar) => !bar.pickup).length;
  const parts = [
    where === "" ? name : `${name}${where === "open" || where.startsWith("valves") ? "," : " in"} ${where}`,
    `${bars} bar${bars === 1 ? "" : "s"}`,
  ];
  const range = rangeOf(sheet);
  if (range !== undefined) {
    const [low, high] = range.map(spokenPitch);
    parts.push(low === high ? `on ${low}` : `from ${low} to ${high}`);
  }
  return parts.join(", ");
}

/** The lowest and the highest note of a sheet. */
function rangeOf({ bars }: Pick<Sheet, "bars">): readonly [low: Pitch, high: Pitch] | undefined {
  let low: Pitch | undefined;
  let high: Pitch | undefined;
  for (const { events } of bars) {
    for (const event of events) {
      if (event.kind !== "note") continue;
      if (low === undefined || midiOf(event.pitch) < midiOf(low)) low = event.pitch;
      if (high === undefined || midiOf(event.pitch) > midiOf(high)) high = event.pitch;
    }
  }
  return low === undefined || high === undefined ? undefined : [low, high];
}

/** White pixels around an engraving that a page has no use for: it has margins of its own. */
const TRIM = 8;

/** An engraving without the white around it, in black; its size in pixels. */
export function trimmed(svg: string): {
  readonly svg: string;
  readonly width: number;
  readonly height: number;
} {
  const size = / width="([\d.]+)" height="([\d.]+)" viewBox="0 0 [\d.]+ [\d.]+"/.exec(svg);
  if (size === null) return { svg, width: 0, height: 0 };
  const [width, height] = [Number(size[1]) - 2 * TRIM, Number(size[2]) - 2 * TRIM];
  const box = ` width="${width}" height="${height}" viewBox="${TRIM} ${TRIM} ${width} ${height}"`;
  // The drawing inside is as large as it was, whatever is cut off around it.
  const drawing = `$1<svg width="${size[1]}" height="${size[2]}" `;
  const cut = svg.replace(size[0], box).replace(/^(<svg [\s\S]*?)<svg /, drawing);
  return { svg: inColour(cut, "#000"), width, height };
}

/** How wide a picture is set, in millimetres, that was engraved so many pixels wide. */
export function widthOf({ scale, room }: Picture, pixels: number): number {
  return Math.min(pixels * scale, room);
}

/** A note as players call it, with its name: `low C (C4)`. */
export function calledNote(pitch: Pitch): string {
  const [sign, spoken] = [pitchSign(pitch), spokenPitch(pitch)];
  return sign === spoken ? sign : `${spoken} (${sign})`;
}
