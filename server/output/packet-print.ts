/** From players' days and weeks, or from a packet, to a PDF: engraved, fitted to the page and set. */

import type { Density } from "../notation/engrave";
import type { Wanted } from "../pages/sheet-choice";
import { type Aims, daySheet } from "../pages/sheet-day";
import {
  engravedHeight,
  fullWidth,
  likelyHeight,
  type PictureHeight,
  roomOf,
  sheetHeight,
} from "../pages/sheet-measure";
import type { Packet } from "../pages/sheet-packet";
import { type Look, type Picture, trimmed } from "../pages/sheet-picture";
import { PACKET_MARGIN, PAPERS, type PageStyle, type Sheet, WORDS, WORDS_BESIDE } from "../pages/sheet-style";
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

/** One way to set a day. */
interface Rung {
  /** The height of a staff, in millimetres. */
  readonly staff: number;
  /** How many keys of one line are written out. */
  readonly keysWritten: number;
  /** Where music stands that is short: under its words, beside them, or with them in one of two columns. */
  readonly short: "under" | "beside" | "columns";
  /** How near the notes stand to each other. */
  readonly density: Density;
  /** The size of the words, in points. */
  readonly words: number;
  /** Which aims stand on the sheet. */
  readonly aims?: Aims;
  /** How many lines, those with the longest music, show its opening alone. */
  readonly openings?: number;
}

type Ladder = readonly [Rung, ...Rung[]];

const ROOMY = { keysWritten: 3, density: "low", words: WORDS.plain } as const;
const COLUMNS = { keysWritten: 1, short: "columns", density: "close", words: WORDS.plain } as const;
const TIGHT = { ...COLUMNS, density: "closest", words: 9.5 } as const;

/**
 * From the largest staff to the smallest that is still read from a stand: hand-copied parts have 8 mm, printed
 * studies 7 mm, printed parts 5.5 to 7 mm, pocket scores less than 5 mm (common practice, no source). Only where the
 * smallest staff does not help is anything left to the packet: first the aims that the book gives, then the rest of
 * the longest music; and last of all no aim stands but that of the day.
 */
const RUNGS: Ladder = [
  { ...ROOMY, staff: 8, short: "under" },
  { ...ROOMY, staff: 8, short: "beside" },
  { ...ROOMY, staff: 7.2, short: "beside" },
  { ...ROOMY, staff: 7.2, short: "beside", keysWritten: 1 },
  { ...COLUMNS, staff: 6.8 },
  { ...COLUMNS, staff: 6.4 },
  { ...COLUMNS, staff: 6, words: 10 },
  { ...COLUMNS, staff: 5.7, words: 9.5 },
  { ...TIGHT, staff: 5.4 },
  { ...TIGHT, staff: 5.1 },
  { ...TIGHT, staff: 5.4, aims: "term" },
  { ...TIGHT, staff: 5.1, aims: "term" },
  ...[1, 2, 3, 4, 5, 6, 8, 10].map((openings) => ({ ...TIGHT, staff: 5.1, aims: "term" as const, openings })),
  { ...TIGHT, staff: 5, words: 9, aims: "term", openings: 12 },
  { ...TIGHT, staff: 5, words: 9, aims: "day", openings: 12 },
];
/** In large print a day may take several pages, and its staff is never small. */
const LARGE_RUNGS: Ladder = [
  { staff: 11, keysWritten: 3, short: "under", density: "roomy", words: WORDS.large },
];

/** A browser sets words in a face of its own, and often a wider one. */
const BROWSERS_SHARE = 0.96;

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
  return new Fit(wanted, style, BROWSERS_SHARE, 1).reckoned(works, new Map());
}

/** Finds for each day the largest staff with which it fits its page, or the fewest pages. */
class Fit {
  private readonly rungs: Ladder;
  /** For each sheet the rung it stands on, and the pages it may take. */
  private readonly at: number[];
  private readonly pages: number[];

  constructor(
    private readonly wanted: readonly Wanted[],
    private readonly style: PageStyle,
    /** The part of a page that is reckoned with. */
    private readonly share = 1,
    /** How many times as high as that a day may be reckoned and be tried all the same. */
    private readonly doubtful = DOUBTFUL,
  ) {
    this.rungs = style.large ? LARGE_RUNGS : RUNGS;
    this.pages = wanted.map((each) => (each.kind === "week" || style.large ? Number.POSITIVE_INFINITY : 1));
    this.at = wanted.map((_, index) => this.likelyRung(index));
  }

  /** The sheets, engraved, with what plainly does not fit made smaller: that need not be set to be found out. */
  async reckoned(works: Works, kept: Kept): Promise<{ sheets: readonly Sheet[]; made: Engravings }> {
    for (;;) {
      const sheets = this.wanted.map((each, index) =>
        sheetAt(each, index, this.rungs[this.at[index] ?? 0] ?? this.rungs[0], this.style),
      );
      const made = await engravings(sheetTasks(sheets), works, kept);
      const engraved = (picture: Picture): number => engravedHeight(picture, trimmed(made.of(picture.task)));
      let again = false;
      sheets.forEach((sheet, index) => {
        const isLast = this.at[index] === this.rungs.length - 1;
        if (this.over(sheet, index, engraved) <= (isLast ? LAST_HOPE : this.doubtful)) return;
        this.stepDown(index);
        again = true;
      });
      if (!again) return { sheets, made };
    }
  }

  /** Whether so many pages are more than a sheet may take; if so it is made smaller. */
  isTooLong(index: number, pages: number): boolean {
    if (pages <= (this.pages[index] ?? 1)) return false;
    this.stepDown(index);
    return true;
  }

  /** The next smaller way to set a day; after the smallest, one page more. */
  private stepDown(index: number): void {
    const next = (this.at[index] ?? 0) + 1;
    if (next < this.rungs.length) {
      this.at[index] = next;
      return;
    }
    this.pages[index] = (this.pages[index] ?? 1) + 1;
    this.at[index] = this.likelyRung(index);
  }

  /** The first rung on which a day will probably fit, as far as can be said before anything is engraved. */
  private likelyRung(index: number): number {
    const each = this.wanted[index];
    if (each === undefined) return 0;
    const found = this.rungs.findIndex(
      (rung) => this.over(sheetAt(each, index, rung, this.style), index, likelyHeight) <= LIKELY,
    );
    return found === -1 ? this.rungs.length - 1 : found;
  }

  /** How many times as high as its pages a day is reckoned to be. */
  private over(sheet: Sheet, index: number, heightOf: PictureHeight): number {
    const pages = this.pages[index] ?? 1;
    if (sheet.kind === "week" || pages === Number.POSITIVE_INFINITY) return 0;
    const { paper } = this.style;
    return (
      sheetHeight(sheet.sheet, { paper, words: sheet.words }, heightOf) / (roomOf(paper) * this.share * pages)
    );
  }
}

/** So many times the height of a page a reckoned height may lie and the day fit all the same. */
const DOUBTFUL = 1.05;
/** The same on the last rung, after which only a second page is left. */
const LAST_HOPE = 1.1;
/** The same before anything is engraved. */
const LIKELY = 1.03;

function sheetAt(wanted: Wanted, index: number, rung: Rung, { paper }: PageStyle): Sheet {
  const id = String(index);
  if (wanted.kind === "week") return { kind: "week", id, sheet: wanted.sheet };
  const { short, words, ...look } = rung;
  const width = fullWidth(paper);
  const sheet = daySheet(wanted.of, {
    ...look,
    width,
    fingerings: wanted.fingerings,
    beside: short === "under" ? undefined : width - WORDS_BESIDE,
    columns: short === "columns" ? { paper, words } : undefined,
  });
  return { kind: "day", id, words, sheet };
}
