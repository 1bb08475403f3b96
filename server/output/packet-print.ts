/** From players' days and weeks, or from a packet, to a PDF: engraved, fitted to the page and set. */
import type { Wanted } from "../pages/sheet-choice";
import { daySheet, type SheetLine } from "../pages/sheet-day";
import type { Packet } from "../pages/sheet-packet";
import { type Look, trimmed } from "../pages/sheet-picture";
import {
  PACKET_MARGIN,
  PAPERS,
  type PageStyle,
  SHEET_MARGIN,
  type Sheet,
  WORDS_BESIDE,
} from "../pages/sheet-style";
import { type Engravings, engravings, type Kept, type Works } from "./packet-engraving";
import { packetFiles, packetTasks, sheetFiles, sheetTasks } from "./packet-files";
import type { Press } from "./press";

export interface PrintWorks extends Works {
  readonly press: Press;
}

export interface Printed {
  readonly pdf: Uint8Array;
  /** Days that take more than a page even in the smallest staff, with how many. */
  readonly overlong: readonly { readonly wanted: Wanted; readonly pages: number }[];
  readonly missing: readonly string[];
  readonly failed: readonly string[];
}

/**
 * One way to set a day: the height of a staff in millimetres, how many keys of one line are written out, and
 * whether short music stands beside the words instead of under them.
 */
interface Rung {
  readonly staff: number;
  readonly keysWritten: number;
  readonly beside: boolean;
}

/**
 * From the largest staff to the smallest that is still read from a stand: hand-copied parts have 8 mm, printed
 * studies 7 mm, pocket scores less than 5 mm (common practice, no source).
 */
const RUNGS: readonly Rung[] = [
  { staff: 8, keysWritten: 3, beside: false },
  { staff: 8, keysWritten: 3, beside: true },
  { staff: 7.2, keysWritten: 3, beside: true },
  { staff: 7.2, keysWritten: 1, beside: true },
  { staff: 6.5, keysWritten: 1, beside: true },
  { staff: 5.9, keysWritten: 1, beside: true },
  { staff: 5.4, keysWritten: 1, beside: true },
];
/** In large print a day may take several pages, and its staff is never small. */
const LARGE_RUNGS: readonly Rung[] = [{ staff: 11, keysWritten: 3, beside: false }];

/** A browser sets words in a face of its own, and often a wider one. */
const BROWSERS_SHARE = 0.84;

/** The height of the staves of a packet, in millimetres. */
const PACKET_STAFF = { plain: 7, large: 11 } as const;

/** How notation is set in a packet. */
export function packetLook({ paper, large }: PageStyle, fingerings: boolean): Look {
  const staff = large ? PACKET_STAFF.large : PACKET_STAFF.plain;
  return { staff, width: PAPERS[paper].width - 2 * PACKET_MARGIN, fingerings };
}

/** A packet as PDF. */
export async function printedPacket(packet: Packet, style: PageStyle, works: PrintWorks): Promise<Printed> {
  const made = await engravings(packetTasks(packet), works, new Map());
  await works.engraved?.();
  const { pdf, missing } = await works.press.print(packetFiles(packet, style, made.of), works.signal);
  return { pdf, missing, failed: made.failed, overlong: [] };
}

/** Day and week sheets as one PDF, each day on one page where it can be. */
export async function printedSheets(
  wanted: readonly Wanted[],
  title: string,
  style: PageStyle,
  works: PrintWorks,
  kept: Kept = new Map(),
): Promise<Printed> {
  const fit = new Fit(wanted, style);
  const failed = new Set<string>();
  for (;;) {
    const { sheets, made } = await fit.reckoned(works, kept);
    for (const each of made.failed) failed.add(each);
    const pressed = await works.press.print(sheetFiles(sheets, title, style, made.of), works.signal);
    const overlong: Printed["overlong"][number][] = [];
    let again = false;
    for (const { id, from, to } of pressed.spans) {
      const index = Number(id);
      const each = wanted[index];
      if (each === undefined || from === to) continue;
      if (fit.isTooLong(index, to - from + 1)) again = true;
      else overlong.push({ wanted: each, pages: to - from + 1 });
    }
    if (!again) return { pdf: pressed.pdf, missing: pressed.missing, failed: [...failed], overlong };
  }
}

/** The same sheets where there is no press: as large as they probably fit. */
export async function reckonedSheets(
  wanted: readonly Wanted[],
  style: PageStyle,
  works: Works,
): Promise<{ readonly sheets: readonly Sheet[]; readonly made: Engravings }> {
  return new Fit(wanted, style, BROWSERS_SHARE).reckoned(works, new Map());
}

/** Finds for each day the largest staff with which it fits its page, or the fewest pages. */
class Fit {
  private readonly rungs: readonly Rung[];
  /** For each sheet the rung it stands on, and the pages it may take. */
  private readonly at: number[];
  private readonly pages: number[];

  constructor(
    private readonly wanted: readonly Wanted[],
    private readonly style: PageStyle,
    /** The part of a page that is reckoned with. */
    private readonly share = 1,
  ) {
    this.rungs = style.large ? LARGE_RUNGS : RUNGS;
    this.at = wanted.map(() => 0);
    this.pages = wanted.map((each) => (each.kind === "week" || style.large ? Number.POSITIVE_INFINITY : 1));
  }

  /** The sheets, engraved, with what plainly does not fit made smaller: that need not be set to be found out. */
  async reckoned(works: Works, kept: Kept): Promise<{ sheets: readonly Sheet[]; made: Engravings }> {
    for (;;) {
      const sheets = this.wanted.map((each, index) =>
        sheetAt(each, index, this.rungs[this.at[index] ?? 0], this.style),
      );
      const made = await engravings(sheetTasks(sheets), works, kept);
      let again = false;
      sheets.forEach((sheet, index) => {
        if (sheet.kind === "week") return;
        const over = heightOf(sheet, made) / (roomOf(this.style) * this.share * (this.pages[index] ?? 1));
        if (over <= DOUBTFUL) return;
        this.stepDown(index, over);
        again = true;
      });
      if (!again) return { sheets, made };
    }
  }

  /** Whether so many pages are more than a sheet may take; if so it is made smaller. */
  isTooLong(index: number, pages: number): boolean {
    if (pages <= (this.pages[index] ?? 1)) return false;
    this.stepDown(index, 1);
    return true;
  }

  /** The next smaller way to set a day that is `over` times too high; from the smallest, one page more. */
  private stepDown(index: number, over: number): void {
    const { rungs } = this;
    const from = this.at[index] ?? 0;
    if (from === rungs.length - 1) {
      this.pages[index] = (this.pages[index] ?? 1) + 1;
      this.at[index] = 0;
      return;
    }
    let to = from + 1;
    while (to < rungs.length - 1 && over * shrinking(rungs[from], rungs[to]) > 1.15) to++;
    this.at[index] = to;
  }
}

/**
 * The part of a day's height that is left on another rung, nearly. Smaller staves are lower, and more bars stand on
 * a line: the height falls faster than the staff.
 */
function shrinking(from: Rung | undefined, to: Rung | undefined): number {
  if (from === undefined || to === undefined) return 1;
  return (to.staff / from.staff) ** 1.8 * (to.beside && !from.beside ? BESIDE_SAVES : 1);
}

function sheetAt(wanted: Wanted, index: number, rung: Rung | undefined, style: PageStyle): Sheet {
  const id = String(index);
  if (wanted.kind === "week") return { kind: "week", id, sheet: wanted.sheet };
  const { staff = 8, keysWritten = 1, beside = false } = rung ?? {};
  const width = PAPERS[style.paper].width - 2 * SHEET_MARGIN;
  const look = {
    staff,
    keysWritten,
    width,
    fingerings: wanted.fingerings,
    beside: beside ? width - WORDS_BESIDE : undefined,
  };
  return { kind: "day", id, sheet: daySheet(wanted.of, look) };
}

/* Heights in millimetres, measured on printed sheets; text is taken for a little lower than it is. */
const HEAD = 26;
const FOOTING = 15;
const SESSION = 8;
const LINE_OF_TEXT = 4.6;
const BETWEEN = 2;
/** So much over the height of a page a reckoned height may lie and the day fit all the same. */
const DOUBTFUL = 1.12;
/** What is left of a day's height when short music stands beside the words. */
const BESIDE_SAVES = 0.8;
const LETTERS_ON_A_LINE = 95;
const LETTERS_BESIDE = 36;

/** How high a day's sheet is, nearly: what the press says counts. */
function heightOf({ sheet }: Extract<Sheet, { kind: "day" }>, made: Engravings): number {
  let height = HEAD + FOOTING;
  for (const session of sheet.sessions) {
    height += SESSION + session.aims.length * LINE_OF_TEXT;
    for (const line of session.lines) height += BETWEEN + lineHeight(line, made);
    const short = session.shortVersion.join("; ").length;
    if (short > 0) height += LINE_OF_TEXT * Math.ceil(short / LETTERS_ON_A_LINE);
  }
  return height;
}

function lineHeight(line: SheetLine, made: Engravings): number {
  if (line.kind === "pause") return LINE_OF_TEXT;
  const said = [
    line.name,
    line.where,
    line.amount,
    line.tempo?.number ?? "",
    line.rest,
    line.without,
    line.aim,
  ];
  const letters = said.join(", ").length + (line.further === "" ? 0 : line.further.length + 20);
  const [first, ...others] = line.music;
  const high = ({ picture, caption }: (typeof line.music)[number]): number =>
    trimmed(made.of(picture.task)).height * picture.scale + (caption === "" ? 0 : LINE_OF_TEXT + 1);
  const rest = others.reduce((sum, each) => sum + high(each), 0);
  if (first?.picture.beside === true) {
    const words = (1 + Math.ceil(letters / LETTERS_BESIDE)) * LINE_OF_TEXT;
    return Math.max(words, high(first)) + rest;
  }
  return (
    Math.ceil(letters / LETTERS_ON_A_LINE) * LINE_OF_TEXT + (first === undefined ? 0 : high(first)) + rest
  );
}

/** The height between the margins, in millimetres. */
function roomOf({ paper }: PageStyle): number {
  return PAPERS[paper].height - 24;
}
