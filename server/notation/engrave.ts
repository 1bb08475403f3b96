/** From a sheet to a picture, with whatever engraver there is. */

import { staffPosition, stepOf } from "../music/pitch";
import { cleanSvg } from "./clean-svg";
import { layoutOf } from "./line-breaks";
import { musicXmlOf } from "./musicxml";
import type { Sheet } from "./sheet";

/** One picture to engrave. Equal tasks give equal pictures, so they can be kept by their content. */
export interface EngravingTask {
  readonly musicXml: string;
  /** Of the page, in the engraver's units: a staff space is 18 of them, and two are a pixel. */
  readonly width: number;
  /** Whether the music says where its lines break; if not, it is one line, as long as it must be. */
  readonly broken: boolean;
  /** For those who do not see the picture. */
  readonly title: string;
  /** How near things stand to each other; `roomy` where nothing is said. */
  readonly density?: Density | undefined;
}

/**
 * How near things stand to each other: `roomy` leaves each line of music the white that a screen has to spare, `low`
 * gives a line the height of what is drawn in it, `close` and `closest` set the notes nearer to each other besides.
 */
export type Density = "roomy" | "low" | "close" | "closest";

/** The part of its own width that a note has: quarters stand three, and two and a half, staff spaces apart. */
export const SPACING: Readonly<Record<Density, number>> = { roomy: 1, low: 1, close: 0.8, closest: 0.7 };

/** Something that engraves, elsewhere: in another thread, or on a page. */
export interface Engraver {
  /**
   * The picture as SVG text in `currentColor`. Rejects when the signal says that nobody waits any longer, and
   * with an `EngravingError` where the music could not be engraved.
   */
  engrave(task: EngravingTask, signal?: AbortSignal): Promise<string>;
}

/** An engraver that holds something, a thread perhaps, until it is told to stop. */
export interface RunningEngraver extends Engraver {
  stop(): Promise<void>;
}

export class EngravingError extends Error {}

/** Pixels to the engraver's unit, as its scale below says. */
export const PIXELS = 0.5;

/** What the engraver is asked for a sheet on a page at most so many pixels wide. */
export function engravingTask(
  sheet: Sheet,
  title: string,
  look: { readonly width: number; readonly fingerings: boolean },
): EngravingTask {
  const layout = layoutOf(sheet, look.width / PIXELS, look.fingerings);
  return {
    musicXml: musicXmlOf(sheet, {
      fingerings: look.fingerings ? "line" : "none",
      ids: true,
      breaks: layout.breaks,
    }),
    width: layout.width,
    broken: layout.breaks.size > 0 || sheet.bars.some((bar, index) => index > 0 && bar.opens !== undefined),
    title,
  };
}

/** The part of verovio's toolkit that is used. */
export interface Toolkit {
  setOptions(options: Readonly<Record<string, unknown>>): void;
  loadData(data: string): boolean;
  renderToSVG(page: number): string;
}

/** Engraves with verovio. Throws an `EngravingError` where it cannot read the music. */
export function engraveWith(toolkit: Toolkit, task: EngravingTask): string {
  toolkit.setOptions({
    ...OPTIONS,
    ...densityOptions(task.density ?? "roomy"),
    pageWidth: task.width,
    breaks: task.broken ? "encoded" : "none",
    adjustPageWidth: !task.broken,
    lyricTopMinMargin: textDistance(task.musicXml),
  });
  const unread = new EngravingError("The engraver could not read this music.");
  if (!toolkit.loadData(task.musicXml)) throw unread;
  const svg = cleanSvg(toolkit.renderToSVG(1), task.title);
  if (!svg.startsWith("<svg ")) throw unread;
  return svg;
}

/** How far the engraver keeps text from the staff, in half staff spaces: so that it clears the lowest note. */
function textDistance(musicXml: string): number {
  if (!musicXml.includes("<lyric")) return LEAST_TEXT_DISTANCE;
  let lowest = Number.POSITIVE_INFINITY;
  for (const [, letter = "", octave] of musicXml.matchAll(
    /<step>([A-G])<\/step>(?:\s*<alter>[^<]*<\/alter>)?\s*<octave>(\d)<\/octave>/g,
  )) {
    lowest = Math.min(lowest, staffPosition({ step: stepOf(letter) ?? 0, alter: 0, octave: Number(octave) }));
  }
  return Math.max(LEAST_TEXT_DISTANCE, Math.min(MOST_TEXT_DISTANCE, CLEAR_OF_STAFF - lowest));
}

/** Bounds of the engraver's option. */
const LEAST_TEXT_DISTANCE = 2;
const MOST_TEXT_DISTANCE = 8;
/** The line of the staff, counted as `staffPosition` does, that needs no more than no distance: A4. */
const CLEAR_OF_STAFF = staffPosition({ step: 5, alter: 0, octave: 4 });

/** The engraver's own measures; it keeps what it was told, so that they are said with each task. */
const OWN = { spacingStaff: 12, spacingSystem: 4, spacingLinear: 0.25 } as const;

function densityOptions(density: Density): Readonly<Record<string, unknown>> {
  return {
    ...OWN,
    spacingStaff: density === "roomy" ? OWN.spacingStaff : 0,
    spacingLinear: SPACING[density] * OWN.spacingLinear,
  };
}

/** Everything on one page as high as it needs, lines broken where the MusicXML says. */
export const OPTIONS: Readonly<Record<string, unknown>> = {
  adjustPageHeight: true,
  footer: "none",
  header: "none",
  lyricSize: 3.4,
  lyricWordSpace: 2,
  minLastJustification: 0.55,
  pageHeight: 60_000,
  pageMarginBottom: 20,
  pageMarginLeft: 20,
  pageMarginRight: 20,
  pageMarginTop: 20,
  scale: 100 * PIXELS,
  smuflTextFont: "none",
  svgFormatRaw: true,
  svgRemoveXlink: true,
  svgViewBox: true,
  // Names drawn from the content: equal music gives equal pictures.
  xmlIdChecksum: true,
  xmlIdSeed: 0,
};
