/**
 * How high the parts of a day's sheet are, nearly: to choose how it is laid out before anything is set. What the press
 * says counts. All in millimetres, measured on printed sheets.
 */
import type { DaySheet, SheetItem, SheetLine } from "./sheet-day";
import { type Picture, widthOf } from "./sheet-picture";
import { PAPERS, type Paper, SHEET_MARGIN, WORDS_BESIDE } from "./sheet-style";

/** The page a day is laid out on. */
export interface SheetFrame {
  readonly paper: Paper;
  /** The size of the words, in points. */
  readonly words: number;
}

/** How high a picture is; before it was engraved an estimate. */
export type PictureHeight = (picture: Picture) => number;

const POINT = 25.4 / 72;
/** A line of text and the white above it, and the mean width of a letter, in the size of the words. */
const LINE = 1.24;
const LETTER = 0.46;
/** The tick box before the words; after them the minutes, and the blank for the tempo where there is one. */
const TICK = 1.5;
const CLOCK = 2.6;
const REACHED = 7.4;
/** Between two columns. */
export const GUTTER = 6;
/** Above each row. */
const GAP = 1.8;
const SESSION = 8.2;
const PAUSE = 3.4;
const RULES = 7;
/** The margins above and below, and what the foot of the page takes of them. */
const OUTSIDE = 24;

/** The width of the page between its margins. */
export function fullWidth(paper: Paper): number {
  return PAPERS[paper].width - 2 * SHEET_MARGIN;
}

/** The width of one of two columns. */
export function halfWidth(paper: Paper): number {
  return (fullWidth(paper) - GUTTER) / 2;
}

/** The height between the margins. */
export function roomOf(paper: Paper): number {
  return PAPERS[paper].height - OUTSIDE;
}

/** How high a day's sheet is. */
export function sheetHeight(sheet: DaySheet, frame: SheetFrame, heightOf: PictureHeight): number {
  const line = lineOf(frame);
  const wide = (words: string, size = 1): number =>
    linesOf(words, fullWidth(frame.paper), frame, size) * line;
  const today = [sheet.lesson, ...sheet.remarks].filter((each) => each !== "").join(" · ");
  const ahead = sheet.ahead.length === 0 ? "" : `Ahead: ${sheet.ahead.join(" · ")}`;
  // The head, the figures, and the line to fill in.
  let height =
    3.4 * line + 2 * RULES + wide(`${Object.values(sheet.totals).join("")}${sheet.counted}`) + line;
  height += 1.2 * wide(sheet.aim, 1.25) + wide(today, 0.92) + wide(ahead, 0.92);
  for (const session of sheet.sessions) {
    height += SESSION + session.aims.length * line;
    for (const row of rowsOf(session.lines))
      height += Math.max(...row.map((each) => lineHeight(each, frame, heightOf)));
    const short = session.shortVersion.join("; ");
    if (short !== "") height += wide(`Short version, ${session.shortAllowed}: ${short}`, 0.88) + 1;
  }
  return height;
}

/** The lines of a session as they stand under each other: two where they stand side by side. */
export function rowsOf(lines: readonly SheetLine[]): readonly (readonly SheetLine[])[] {
  const rows: SheetLine[][] = [];
  for (const line of lines) {
    const last = rows.at(-1);
    const [first, ...others] = last ?? [];
    if (isHalf(line) && first !== undefined && isHalf(first) && others.length === 0) last?.push(line);
    else rows.push([line]);
  }
  return rows;
}

function isHalf(line: SheetLine): boolean {
  return line.kind === "item" && line.half;
}

/** How high one line of a session is, with the white above it. */
export function lineHeight(line: SheetLine, frame: SheetFrame, heightOf: PictureHeight): number {
  const text = lineOf(frame);
  if (line.kind === "pause") return text + PAUSE;
  const said = saidOf(line);
  const [first, ...others] = line.music;
  const high = ({ picture, caption }: (typeof line.music)[number]): number =>
    heightOf(picture) + (caption === "" ? 0.6 : text + 1);
  const rest = others.reduce((sum, each) => sum + high(each) + 1, 0);
  const further = line.further === "" ? 0 : text + 0.5;
  const music = first === undefined ? 0 : high(first);
  const tick = TICK * frame.words * POINT;
  if (line.half) {
    const words = 1 + linesOf(said, halfWidth(frame.paper) - tick, frame);
    return GAP + words * text + 0.8 + music + rest + further;
  }
  if (first?.picture.beside === true) {
    const reached = line.tempo === undefined ? "" : ", reached _______";
    const words = linesOf(`${said}${reached}`, WORDS_BESIDE - tick - 4, frame) + (line.aim === "" ? 1 : 1.5);
    return GAP + Math.max(words * text + 1 + further, music) + rest;
  }
  const right = (line.tempo === undefined ? CLOCK : CLOCK + REACHED) * frame.words * POINT;
  const words = linesOf(`${line.name}  ${said}`, fullWidth(frame.paper) - tick - right, frame);
  return GAP + words * text + music + rest + further;
}

/** How wide a picture that was engraved is set, and so how high. */
export function engravedHeight(
  picture: Picture,
  size: { readonly width: number; readonly height: number },
): number {
  return size.width === 0 ? 0 : (size.height * widthOf(picture, size.width)) / size.width;
}

function saidOf(line: SheetItem): string {
  const tempo = line.tempo === undefined ? "" : `${line.tempo.value} ♩ ${line.tempo.number}`;
  const tags = `${line.inShort ? "  short " : ""}${line.dropWhenTired ? "  drop when tired " : ""}`;
  const asked = [line.where, line.without, line.amount, tempo, line.rest].filter((each) => each !== "");
  return `${asked.join(", ")}${tags}${line.aim === "" ? "" : `  ${line.aim}`}`;
}

function lineOf({ words }: SheetFrame): number {
  return words * POINT * LINE;
}

/** How many lines words take; none where there are none. */
function linesOf(words: string, width: number, frame: SheetFrame, size = 1): number {
  return Math.ceil((words.length * LETTER * size * frame.words * POINT) / width);
}
