/**
 * How high the parts of a day's sheet are, nearly: to choose how it is laid out before anything is set. What the press
 * says counts. All in millimetres, measured on printed sheets.
 */
import type { DaySheet, SheetItem, SheetLine } from "./sheet-day";
import { type Picture, STAFF_PIXELS, widthOf } from "./sheet-picture";
import { PAPERS, type Paper, SHEET_BOTTOM, SHEET_MARGIN, SHEET_TOP, WORDS_BESIDE } from "./sheet-style";
import { isOpening } from "./sheet-words";

/** The page a day is laid out on. */
export interface SheetFrame {
  readonly paper: Paper;
  /** The size of the words, in points. */
  readonly words: number;
}

/** How high a picture is; before it was engraved an estimate. */
export type PictureHeight = (picture: Picture) => number;

const POINT = 25.4 / 72;
/** From line to line, a capital, and the mean width of a letter, in the size of the words. */
const LINE = 1.16;
const CAPITAL = 0.68;
const LETTER = 0.46;
/** The tick box before the words; after them the minutes, and the blank for the tempo where there is one. */
const TICK = 1.5;
const CLOCK = 2.6;
const REACHED = 7.4;
/** Between two columns. */
export const GUTTER = 6;
/** White above each row. */
export const GAP = 1.8;
/** Around a pause; a session's heading; the head and the foot without most of their words. */
const PAUSE = 3;
const SESSION = 10;
const HEAD = 9;
const FOOT = 7;

/** The width of the page between its margins. */
export function fullWidth(paper: Paper): number {
  return PAPERS[paper].width - 2 * SHEET_MARGIN;
}

/** The height between the margins. */
export function roomOf(paper: Paper): number {
  return PAPERS[paper].height - SHEET_TOP - SHEET_BOTTOM;
}

/** How high a day's sheet is. */
export function sheetHeight(sheet: DaySheet, frame: SheetFrame, heightOf: PictureHeight): number {
  const wide = (words: string, size: number): number =>
    textHeight(linesOf(words, fullWidth(frame.paper), frame, size), frame, size);
  const about = [sheet.lesson, ...sheet.remarks, ...sheet.ahead].filter((each) => each !== "").join(" · ");
  let height = HEAD + FOOT + textHeight(4, frame) + (about === "" ? 0 : 2 + wide(about, 0.92));
  for (const session of sheet.sessions) {
    height += SESSION + session.aims.length * (1 + textHeight(1, frame));
    for (const row of rowsOf(session.lines))
      height += Math.max(...row.map((each) => lineHeight(each, frame, heightOf)));
    const short = session.shortVersion.join("; ");
    if (short !== "") height += 2 + wide(`Short version, ${session.shortAllowed}: ${short}`, 0.88);
  }
  return height;
}

/** The lines of a session as they stand under each other: two where they stand side by side. */
export function rowsOf(lines: readonly SheetLine[]): readonly (readonly SheetLine[])[] {
  const rows: SheetLine[][] = [];
  let left = false;
  for (const line of lines) {
    const inColumn = line.kind === "item" && line.column !== undefined;
    if (left && inColumn) rows.at(-1)?.push(line);
    else rows.push([line]);
    left = inColumn && !left;
  }
  return rows;
}

/** How high one line of a session is, with the white above it. */
export function lineHeight(line: SheetLine, frame: SheetFrame, heightOf: PictureHeight): number {
  if (line.kind === "pause") return textHeight(1, frame) + PAUSE;
  const said = saidOf(line);
  const [first, ...others] = line.music;
  const high = ({ picture, caption }: (typeof line.music)[number]): number =>
    heightOf(picture) + (caption === "" ? 0.6 : textHeight(1, frame) + 1);
  const rest = others.reduce((sum, each) => sum + high(each) + 1.6, 0);
  const further = line.further === "" ? 0 : textHeight(1, frame) + 1;
  const tick = TICK * frame.words * POINT;
  const right = (line.tempo === undefined ? CLOCK : CLOCK + REACHED) * frame.words * POINT;
  const name = (width: number): number => textHeight(linesOf(line.name, width, frame), frame);
  if (line.column !== undefined) {
    const words = 1.5 + textHeight(linesOf(said, line.column - tick, frame), frame);
    const music = first === undefined ? 0 : 0.4 + high(first);
    return GAP + name(line.column - tick - right) + words + music + rest + further;
  }
  const music = first === undefined ? 0 : high(first);
  if (first?.picture.beside === true) {
    const { aim } = line;
    const width = WORDS_BESIDE - tick - 4;
    const asked = `${saidOf({ ...line, aim: "" })}${line.tempo === undefined ? "" : "  reached _____"}`;
    const words =
      name(width - CLOCK * frame.words * POINT) + 1.7 + textHeight(linesOf(asked, width, frame), frame);
    const under = aim === "" ? 0 : 1.7 + textHeight(linesOf(aim, width, frame), frame);
    return GAP + Math.max(words + under, music) + rest + further;
  }
  const words = linesOf(`${line.name}  ${said}`, fullWidth(frame.paper) - tick - right, frame);
  return GAP + textHeight(words, frame) + music + rest + further;
}

/** The height of a line of music in heights of its staff, and what fingerings under it add. */
const LINE_OF_MUSIC = 2.35;
const FINGERINGS = 0.4;

/** How high a picture will be, before it is engraved. */
export function likelyHeight({ lines, scale, fingered }: Picture): number {
  return lines * scale * STAFF_PIXELS * (LINE_OF_MUSIC + (fingered ? FINGERINGS : 0));
}

/** How high a picture is that was engraved so large. */
export function engravedHeight(
  picture: Picture,
  size: { readonly width: number; readonly height: number },
): number {
  return size.width === 0 ? 0 : (size.height * widthOf(picture, size.width)) / size.width;
}

function saidOf(line: SheetItem): string {
  const tempo = line.tempo === undefined ? "" : `${line.tempo.value} ♩ ${line.tempo.number}`;
  const tags = `${line.inShort ? "  short " : ""}${line.dropWhenTired ? "  drop when tired " : ""}${isOpening(line) ? "  opening " : ""}`;
  const asked = [line.where, line.without, line.amount, tempo, line.rest].filter((each) => each !== "");
  return `${asked.join(", ")}${tags}${line.aim === "" ? "" : `  ${line.aim}`}`;
}

/** So many lines of text from the top of the first capital to the last line's foot, with what a tag adds. */
function textHeight(lines: number, { words }: SheetFrame, size = 1): number {
  return lines === 0 ? 0 : words * POINT * size * (CAPITAL + (lines - 1) * LINE);
}

/** How many lines words take; none where there are none. */
function linesOf(words: string, width: number, frame: SheetFrame, size = 1): number {
  return Math.ceil((words.length * LETTER * size * frame.words * POINT) / width);
}
