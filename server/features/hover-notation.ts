import type { Position } from "vscode-languageserver-types";
import { placementName } from "../days/placement";
import type { Sheet } from "../notation/sheet";
import { type SystemPicture, systemPictures } from "../notation/system-pictures";
import { writtenOut } from "../notation/write-out";
import type { Checked } from "../workspace/check-sources";
import { musicAt, sheetAskOf } from "./asked-music";
import { fileOf, offsetOf } from "./lines-of";

/** Notation to stand above the words of a hover: its first lines, to be engraved. */
export interface HoverNotation {
  readonly pictures: readonly SystemPicture[];
  /** Bars of the whole. */
  readonly bars: number;
}

/** Pixels that the notation is set for, and how much smaller it is shown: a hover is some 470 pixels wide. */
export const HOVER_WIDTH = 640;
export const HOVER_SCALE = 0.72;
/** Lines of music that are shown: a hover is glanced at, and its words should be seen too. */
const MOST_LINES = 2;

/**
 * The notation of the exercise whose name stands at a position, or that its line in a session asks for, in the key
 * and at the tempo that the line says. Undefined for what has no notes.
 */
export function hoverNotation(checked: Checked, path: string, position: Position): HoverNotation | undefined {
  const file = fileOf(checked, path);
  const music = file === undefined ? undefined : musicAt(checked, file, offsetOf(file, position), false);
  if (music === undefined) return undefined;
  const ask = sheetAskOf(music);
  const written = writtenOut(ask);
  if (written.kind !== "sheet" || written.sheet.bars.length === 0) return undefined;
  const { sheet } = written;
  const [placement] = ask.placements ?? [];
  const where = placement === undefined ? "" : placementName(placement);
  const name = where === "" ? sheet.title : `${sheet.title}, ${where}`;
  const pictures = systemPictures(sheet, { width: HOVER_WIDTH, fingerings: false }, (from, to) =>
    barsText(name, sheet, from, to),
  );
  return { pictures: pictures.slice(0, MOST_LINES), bars: sheet.bars.length };
}

/** What a picture shows, in words: `Slow fifths, G major, bars 1 to 4 of 12`. */
export function barsText(name: string, { bars }: Pick<Sheet, "bars">, from: number, to: number): string {
  if (from === 0 && to === bars.length) return name;
  return to - from === 1
    ? `${name}, bar ${from + 1} of ${bars.length}`
    : `${name}, bars ${from + 1} to ${to} of ${bars.length}`;
}
