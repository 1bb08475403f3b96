/** From players' days and weeks, or from a packet, to a PDF: engraved, fitted to the page and set. */

import type { Density } from "../notation/engrave";
import type { Wanted } from "../pages/sheet-choice";
import { daySheet } from "../pages/sheet-day";
import { engravedHeight, fullWidth, roomOf, sheetHeight } from "../pages/sheet-measure";
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

/**
 * One way to set a day: the height of a staff in millimetres, how many keys of one line are written out, where music
 * stands that is short (under its words, beside them, or in one of two columns), how near the notes stand to each
 * other, and the size of the words in points.
 */
interface Rung {
  readonly staff: number;
  readonly keysWritten: number;
  readonly short: "under" | "beside" | "columns";
  readonly density: Density;
  readonly words: number;
}

type Ladder = readonly [Rung, ...Rung[]];

/**
 * From the largest staff to the smallest that is still read from a stand: hand-copied parts have 8 mm, printed
 * studies 7 mm, printed parts 5.5 to 7 mm, pocket scores less than 5 mm (common practice, no source).
 */
const RUNGS: Ladder = [
  { staff: 8, keysWritten: 3, short: "under", density: "low", words: WORDS.plain },
  { staff: 8, keysWritten: 3, short: "beside", density: "low", words: WORDS.plain },
  { staff: 7.2, keysWritten: 3, short: "beside", density: "low", words: WORDS.plain },
  { staff: 7.2, keysWritten: 1, short: "beside", density: "low", words: WORDS.plain },
  { staff: 6.8, keysWritten: 1, short: "columns", density: "close", words: WORDS.plain },
  { staff: 6.4, keysWritten: 1, short: "columns", density: "close", words: WORDS.plain },
  { staff: 6, keysWritten: 1, short: "columns", density: "close", words: 10 },
  { staff: 5.7, keysWritten: 1, short: "columns", density: "close", words: 9.5 },
  { staff: 5.4, keysWritten: 1, short: "columns", density: "close", words: 9.5 },
  { staff: 5.1, keysWritten: 1, short: "columns", density: "close", words: 9.5 },
];
/** In large print a day may take several pages, and its staff is never small. */
const LARGE_RUNGS: Ladder = [
  { staff: 11, keysWritten: 3, short: "under", density: "roomy", words: WORDS.large },
];

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
  private readonly rungs: Ladder;
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
        sheetAt(each, index, this.rungs[this.at[index] ?? 0] ?? this.rungs[0], this.style),
      );
      const made = await engravings(sheetTasks(sheets), works, kept);
      let again = false;
      sheets.forEach((sheet, index) => {
        if (sheet.kind === "week") return;
        const { paper } = this.style;
        const heightOf = (picture: Picture): number =>
          engravedHeight(picture, trimmed(made.of(picture.task)));
        const high = sheetHeight(sheet.sheet, { paper, words: sheet.words }, heightOf);
        const over = high / (roomOf(paper) * this.share * (this.pages[index] ?? 1));
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
  return (to.staff / from.staff) ** 1.6 * (to.short === from.short ? 1 : SAVES[to.short]);
}

/** What is left of a day's height when short music stands elsewhere than under its words. */
const SAVES: Readonly<Record<Rung["short"], number>> = { under: 1, beside: 0.85, columns: 0.75 };

/** So much over the height of a page a reckoned height may lie and the day fit all the same. */
const DOUBTFUL = 1.08;

function sheetAt(wanted: Wanted, index: number, rung: Rung, { paper }: PageStyle): Sheet {
  const id = String(index);
  if (wanted.kind === "week") return { kind: "week", id, sheet: wanted.sheet };
  const { staff, keysWritten, short, density, words } = rung;
  const width = fullWidth(paper);
  const look = {
    staff,
    keysWritten,
    width,
    fingerings: wanted.fingerings,
    density,
    beside: short === "under" ? undefined : width - WORDS_BESIDE,
    columns: short === "columns" ? { paper, words } : undefined,
  };
  return { kind: "day", id, words, sheet: daySheet(wanted.of, look) };
}
