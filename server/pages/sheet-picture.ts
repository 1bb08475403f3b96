/** An exercise in one key as a picture to be engraved for a page, with what is said of it to those who do not see it. */
import { type Placement, placementName } from "../days/placement";
import { midiOf, type Pitch, pitchSign, spokenPitch } from "../music/pitch";
import { inColour } from "../notation/clean-svg";
import { type Density, type EngravingTask, PIXELS, SPACING } from "../notation/engrave";
import { type Layout, layoutOf } from "../notation/line-breaks";
import { musicXmlParts } from "../notation/musicxml";
import type { Sheet } from "../notation/sheet";
import { joinedBars } from "../notation/system-pictures";
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
  /** Whether music of several lines is shown by its opening: as much as goes on one. */
  readonly opening?: boolean | undefined;
}

export interface Picture {
  readonly task: EngravingTask;
  /** What the picture shows: “Slow fifths in F major, 8 bars, from low F to third-space C”. */
  readonly alt: string;
  /** Millimetres to a pixel of the engraving. */
  readonly scale: number;
  /** Whether it fits beside the words. */
  readonly beside: boolean;
  readonly fingered: boolean;
  /** How many lines of music it has. */
  readonly lines: number;
  /** Whether only the opening of the music is shown. */
  readonly opening: boolean;
  /** How long all of the music would be on one line, in millimetres. */
  readonly length: number;
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
  return picturesOf(ask)?.(look);
}

/** The same in any look, for whoever tries several; undefined for what has no notes. */
export function picturesOf(ask: PictureAsk): ((look: Look) => Picture) | undefined {
  const { placement, exercise } = ask;
  const written = writtenOut({ ...ask, placements: [placement] });
  if (written.kind !== "sheet") return undefined;
  const sheet = joined(written.sheet);
  const where = placementName(placement);
  // The text written last is kept: it is asked for again when the look has been chosen.
  let last: { readonly name: string; readonly text: string } | undefined;
  return (look) => {
    const scale = look.staff / STAFF_PIXELS;
    const density = look.density ?? "roomy";
    const within = (width: number, part = sheet): Layout =>
      layoutOf(part, width / scale / PIXELS, look.fingerings, SPACING[density]);
    const wide = within(look.width);
    const narrow = look.beside === undefined ? undefined : within(look.beside);
    const beside = narrow !== undefined && narrow.breaks.size <= wide.breaks.size;
    const layout = beside ? narrow : wide;
    const room = beside ? (look.beside ?? look.width) : look.width;
    const shown =
      look.opening === true && layout.breaks.size > 0
        ? openingOf(sheet, written.sheet, (part) => within(room, part))
        : undefined;
    const breaks = shown === undefined ? layout.breaks : new Set<number>();
    const name = `${look.fingerings} ${shown?.bars ?? ""} ${[...breaks].join(" ")}`;
    const alt = altText(sheet, exercise.name, where, shown?.bars);
    let task: EngravingTask | undefined;
    return {
      alt,
      scale,
      beside,
      lines: breaks.size + 1,
      opening: shown !== undefined,
      length: within(Number.MAX_SAFE_INTEGER).width * PIXELS * scale,
      room,
      range: rangeOf(sheet),
      fingered: look.fingerings,
      // Written only when it is asked for: most looks that are tried are not taken.
      get task() {
        if (task !== undefined) return task;
        if (last?.name !== name) last = { name, text: textOf(sheet, look.fingerings, breaks, shown?.bars) };
        const width = shown?.width ?? layout.width;
        task = {
          musicXml: last.text,
          width,
          broken: breaks.size > 0,
          title: alt,
          density: look.density,
        };
        return task;
      },
    };
  };
}

/** What the engraver reads; of an opening so many bars, without the double bar of an end. */
function textOf(
  sheet: Sheet,
  fingerings: boolean,
  breaks: ReadonlySet<number>,
  opening: number | undefined,
): string {
  const [text = ""] = musicXmlParts(sheet, {
    fingerings: fingerings ? "line" : "none",
    ids: false,
    breaks,
    // Pages say it in the line above, with the rest of what is asked.
    tempo: "unseen",
    parts: new Set(opening === undefined ? [] : [opening]),
  });
  return text;
}

/**
 * The most bars of a sheet that go on one line, where nothing reaches over their end, and of a series whole cells;
 * undefined where there is no such place.
 */
function openingOf(
  sheet: Sheet,
  { bars: written }: Pick<Sheet, "bars">,
  layout: (part: Sheet) => Layout,
): { readonly bars: number; readonly width: number } | undefined {
  const reached = joinedBars(sheet.bars);
  const inCells = written.some((bar, index) => index > 0 && bar.opens !== undefined);
  for (let bars = sheet.bars.length - 1; bars > 0; bars--) {
    if (reached[bars] === true || (inCells && written[bars]?.opens === undefined)) continue;
    const { breaks, width } = layout({ ...sheet, bars: sheet.bars.slice(0, bars) });
    if (breaks.size === 0) return { bars, width };
  }
  return undefined;
}

/** The cells of a series one after the other on a line, and without the rest that the page says in words. */
function joined(sheet: Sheet): Sheet {
  return { ...sheet, bars: sheet.bars.map((bar) => ({ ...bar, opens: undefined, pause: 0 })) };
}

function altText(sheet: Sheet, name: string, where: string, opening: number | undefined): string {
  const bars = sheet.bars.slice(0, opening).filter((bar) => !bar.pickup).length;
  const parts = [
    where === "" ? name : `${name}${where === "open" || where.startsWith("valves") ? "," : " in"} ${where}`,
    `${opening === undefined ? "" : "the first "}${bars} bar${bars === 1 ? "" : "s"}`,
  ];
  const range = rangeOf({ bars: sheet.bars.slice(0, opening) });
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
