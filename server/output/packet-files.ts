/** What the press is handed for a set of pages: the template, the data it reads, and the engraved pictures. */
import type { EngravingTask } from "../notation/engrave";
import type { DaySheet, SheetLine, SheetSession } from "../pages/sheet-day";
import { metronomePicture } from "../pages/sheet-mark";
import { GAP, GUTTER, rowsOf } from "../pages/sheet-measure";
import type { Packet } from "../pages/sheet-packet";
import { type Picture, trimmed, widthOf } from "../pages/sheet-picture";
import {
  CAUTIONS,
  FIGURES,
  FOOT,
  type PageStyle,
  SHEET_BOTTOM,
  SHEET_MARGIN,
  SHEET_TOP,
  type Sheet,
  WORDS_BESIDE,
} from "../pages/sheet-style";
import type { WeekSheet } from "../pages/sheet-week";
import { isOpening, OPENED, OPENING, type SheetTempo } from "../pages/sheet-words";
import { TEMPLATE } from "./packet-template";

/** Files by their path in the press's own small world. */
export type PressFiles = ReadonlyMap<string, string>;

/** The engraved picture of a task as SVG text. */
export type Engraved = (task: EngravingTask) => string;

/** The files for day and week sheets. */
export function sheetFiles(
  sheets: readonly Sheet[],
  title: string,
  style: PageStyle,
  engraved: Engraved,
): PressFiles {
  const pictures = new Pictures(engraved);
  const data = {
    kind: "sheets",
    title,
    ...style,
    margin: SHEET_MARGIN,
    top: SHEET_TOP,
    bottom: SHEET_BOTTOM,
    words: WORDS_BESIDE,
    gap: GAP,
    gutter: GUTTER,
    foot: FOOT,
    figures: FIGURES,
    opening: { mark: OPENING, meaning: OPENED },
    sheets: sheets.map((each) =>
      each.kind === "day"
        ? { kind: each.kind, id: each.id, words: each.words, ...dayData(each.sheet, pictures) }
        : { kind: each.kind, id: each.id, ...weekData(each.sheet) },
    ),
  };
  return pictures.withData(data);
}

/** The files for a packet. */
export function packetFiles(packet: Packet, style: PageStyle, engraved: Engraved): PressFiles {
  const pictures = new Pictures(engraved);
  const data = {
    kind: "packet",
    title: packet.title,
    ...style,
    foot: FOOT,
    packet: {
      title: packet.title,
      lines: packet.lines,
      cautions: CAUTIONS,
      areas: packet.areas.map((area) => ({
        ...area,
        exercises: area.exercises.map((each) => ({
          ...each,
          tempo: pictures.tempo(each.tempo),
          music: each.music.map(({ caption, picture }) => ({ caption, ...pictures.add(picture) })),
        })),
      })),
    },
  };
  return pictures.withData(data);
}

/** All pictures of a set of sheets, for whoever engraves them. */
export function sheetTasks(sheets: readonly Sheet[]): readonly EngravingTask[] {
  return sheets.flatMap((each) =>
    each.kind === "week"
      ? []
      : each.sheet.sessions.flatMap(({ lines }) =>
          lines.flatMap((line) =>
            line.kind === "item" ? line.music.map(({ picture }) => picture.task) : [],
          ),
        ),
  );
}

/** All pictures of a packet. */
export function packetTasks({ areas }: Packet): readonly EngravingTask[] {
  return areas.flatMap(({ exercises }) =>
    exercises.flatMap(({ music }) => music.map(({ picture }) => picture.task)),
  );
}

/** Everything a page says, for finding letters that its faces lack. */
export function wordsOf(files: PressFiles): string {
  return files.get(DATA) ?? "";
}

const DATA = "/data.json";

/** Longer words than any line of a column holds, in letters, and after how many they may be broken. */
const LONG_WORD = /[^\s\u200b]{31,}/gu;
const BREAK_AFTER = 20;

/** Lets a word that is longer than a line be broken, so that it does not run off the page. */
function breakable(name: string, value: unknown): unknown {
  if (typeof value !== "string" || name === "file" || name === "alt") return value;
  return value.replace(LONG_WORD, (word) => {
    const letters = [...word];
    const parts: string[] = [];
    for (let at = 0; at < letters.length; at += BREAK_AFTER)
      parts.push(letters.slice(at, at + BREAK_AFTER).join(""));
    return parts.join("\u200b");
  });
}

/** Pictures under names of their own, each once. */
class Pictures {
  private readonly names = new Map<string, string>();
  private readonly files = new Map<string, string>();

  constructor(private readonly engraved: Engraved) {}

  add(picture: Picture): {
    readonly file: string;
    readonly width: number;
    readonly alt: string;
    readonly beside: boolean;
  } {
    const { task, alt, beside } = picture;
    const svg = this.engraved(task);
    let file = this.names.get(svg);
    if (file === undefined) {
      file = `/music/${this.names.size + 1}.svg`;
      this.names.set(svg, file);
      this.files.set(file, forPaper(svg));
    }
    return { file, width: widthOf(picture, trimmed(svg).width), alt, beside };
  }

  /** A tempo with the file of its note; nothing where nothing is counted. */
  tempo(tempo: SheetTempo | undefined): object | null {
    if (tempo === undefined) return null;
    const { value, beat, number } = tempo;
    const svg = metronomePicture(beat);
    if (svg === undefined) return { value, number, file: "" };
    const file = `/marks/${beat.num}-${beat.den}.svg`;
    this.files.set(file, svg);
    return { value, number, file };
  }

  withData(data: object): PressFiles {
    return new Map([["/main.typ", TEMPLATE], [DATA, JSON.stringify(data, breakable)], ...this.files]);
  }
}

/** An engraving in black, its words in the face that the press knows; what only a screen needs is left out. */
export function forPaper(svg: string): string {
  return trimmed(svg)
    .svg.replaceAll(/font-family="[^"]*"/g, 'font-family="Tinos, DejaVu Sans"')
    .replace(/<title>[\s\S]*?<\/title>|<desc>[\s\S]*?<\/desc>/g, "")
    .replaceAll(/ class="[^"]*"/g, "");
}

function dayData(sheet: DaySheet, pictures: Pictures): object {
  const { date: _, ...said } = sheet;
  const opened = sheet.sessions.some(({ lines }) => lines.some(isOpening));
  return { ...said, opened, sessions: sheet.sessions.map((each) => sessionData(each, pictures)) };
}

function sessionData(session: SheetSession, pictures: Pictures): object {
  return {
    name: session.name,
    "today-short": session.short,
    minutes: session.allowed === "" ? session.clock : `${session.clock} of ${session.allowed}`,
    aims: session.aims,
    rows: rowsOf(session.lines).map((row) => row.map((line) => lineData(line, pictures))),
    "short-version": session.shortVersion,
    "short-minutes": session.shortAllowed,
  };
}

function lineData(line: SheetLine, pictures: Pictures): object {
  if (line.kind === "pause") return line;
  return {
    kind: line.kind,
    name: line.name,
    what: saidOf([line.where, line.without, line.amount]),
    tempo: pictures.tempo(line.tempo),
    rest: line.rest,
    clock: line.clock,
    aim: line.aim,
    short: line.inShort,
    drop: line.dropWhenTired,
    opening: isOpening(line),
    column: line.column ?? null,
    music: line.music.map(({ caption, picture }) => ({ caption, ...pictures.add(picture) })),
    further: line.further,
  };
}

function saidOf(words: readonly string[]): string {
  return words.filter((each) => each !== "").join(", ");
}

function weekData(sheet: WeekSheet): object {
  return {
    ...sheet,
    sessions: sheet.sessions.map(({ name, rows }) => ({
      name,
      rows: rows.map(({ dropWhenTired, ...row }) => ({ ...row, drop: dropWhenTired })),
    })),
  };
}
