/**
 * Where the lines of an engraving break. The engraver's own breaking costs half of its time and leaves lonely
 * last bars; this one measures bars by estimate and evens the lines out.
 */
import { fifthsOf } from "../music/key";
import { toNumber } from "../music/rhythm";
import { accidentalsOf } from "./accidentals";
import { slurName } from "./joins";
import type { Sheet, SheetBar, SheetNote } from "./sheet";
import { syllablesOf } from "./syllables";

export interface Layout {
  /** Numbers of the bars that begin a line, besides those where the exercise begins anew. */
  readonly breaks: ReadonlySet<number>;
  /** The width the lines need, at most the width there is, in the engraver's units (ten to a staff space and 8). */
  readonly width: number;
}

/*
 * Widths in the engraver's units (a staff space is 18), measured on engravings at its own spacing, which grows
 * with the 0.6th power of a note's value.
 */
const WHOLE = 150;
const NARROWEST = 30;
const ACCIDENTAL = 14;
const DOT = 8;
/** A line of text: so much for each sign, and between two. */
const LETTER = 17;
const BETWEEN = 20;
const AROUND_BAR = 28;
const CLEF = 62;
const SIGN = 18;
const METER = 40;
const MARGINS = 40;
/** Lines are set a little wider than they must; on a dense page as wide as they are. */
const EASE = 1.08;
const CLOSE_EASE = 1.01;
/** What a line more costs, and a line that parts a slur or tie, beside an empty line's 1. */
const LINE = 0.05;
const PARTED = 0.08;
/** No line is set narrower than this: a bar or two with a tempo over them. */
const LEAST = 420;

/**
 * The layout of a sheet on lines of at most `width`; `fingered` where fingerings stand under the notes. `spacing` is
 * the part of its own width that a note has where notes are set closely.
 */
export function layoutOf(sheet: Sheet, width: number, fingered: boolean, spacing = 1): Layout {
  const ease = spacing < 1 ? CLOSE_EASE : EASE;
  const accidentals = accidentalsOf(sheet.bars);
  const syllables = syllablesOf(sheet.bars);
  const letters = (note: SheetNote): number =>
    Math.max(
      syllables.get(note.id)?.length ?? 0,
      fingered && !note.tied ? (note.fingered?.name.length ?? 0) : 0,
    );
  const widths = sheet.bars.map((bar) => barWidth(bar, spacing * WHOLE, accidentals, letters));
  const parted = partedBars(sheet.bars);
  const signs =
    CLEF +
    SIGN * Math.max(0, ...sheet.bars.map((bar) => (bar.key === undefined ? 0 : Math.abs(fifthsOf(bar.key)))));
  const room = Math.max(1, width / ease - MARGINS - signs);
  const breaks = new Set<number>();
  let widest = 0;
  for (const [from, to] of passes(sheet.bars)) {
    const first = from === 0 ? METER : 0;
    for (const [start, end] of evenLines(widths.slice(from, to), parted.slice(from, to), room, first)) {
      if (start > 0) breaks.add(from + start);
      const line = sum(widths.slice(from + start, from + end)) + (start === 0 ? first : 0);
      widest = Math.max(widest, line);
    }
  }
  return { breaks, width: Math.round(Math.min(width, Math.max(LEAST, (widest + signs + MARGINS) * ease))) };
}

function barWidth(
  bar: SheetBar,
  whole: number,
  accidentals: ReadonlyMap<number, unknown>,
  letters: (note: SheetNote) => number,
): number {
  let width = AROUND_BAR;
  for (const event of bar.events) {
    let own = Math.max(NARROWEST, whole * toNumber(event.value) ** 0.6);
    const text = event.kind === "note" ? letters(event) : 0;
    if (text > 0) own = Math.max(own, text * LETTER + BETWEEN);
    if (accidentals.has(event.id)) own += ACCIDENTAL;
    if (event.value.num > 1) own += DOT;
    width += own;
  }
  return width;
}

/** For each bar whether a slur or tie comes into it from the one before. */
function partedBars(bars: readonly SheetBar[]): readonly boolean[] {
  let slur: string | undefined;
  return bars.map((bar) => {
    const [first] = bar.events;
    const last = bar.events.at(-1);
    const into = first?.kind === "note" && (first.tied || (slur !== undefined && slurName(first) === slur));
    slur = last?.kind === "note" ? slurName(last) : undefined;
    return into;
  });
}

/** The stretches between the bars where the exercise begins anew. */
function passes(bars: readonly SheetBar[]): readonly (readonly [from: number, to: number])[] {
  const starts = [0];
  bars.forEach((bar, index) => {
    if (index > 0 && bar.opens !== undefined) starts.push(index);
  });
  return starts.map((from, index) => [from, starts[index + 1] ?? bars.length]);
}

/**
 * Cuts bars into lines so that the squares of what is left free on the lines, the last one too, add up to the
 * least. A bar wider than the line has one to itself.
 */
function evenLines(
  widths: readonly number[],
  parted: readonly boolean[],
  room: number,
  first: number,
): readonly (readonly [start: number, end: number])[] {
  // best[n]: the least for the first n bars, and where the last of their lines starts.
  const best: { readonly cost: number; readonly from: number }[] = [{ cost: 0, from: 0 }];
  for (let end = 1; end <= widths.length; end++) {
    let found = { cost: Number.POSITIVE_INFINITY, from: end - 1 };
    let line = 0;
    for (let from = end - 1; from >= 0; from--) {
      line += (widths[from] ?? 0) + (from === 0 ? first : 0);
      if (line > room && from < end - 1) break;
      const free = Math.max(0, room - line) / room;
      // Many lines hardly filled cost as much as few; one more line has a price of its own.
      const cost = (best[from]?.cost ?? 0) + free * free + LINE + (parted[from] === true ? PARTED : 0);
      if (cost < found.cost) found = { cost, from };
    }
    best.push(found);
  }
  const lines: (readonly [number, number])[] = [];
  for (let end = widths.length; end > 0; ) {
    const start = best[end]?.from ?? 0;
    lines.unshift([start, end]);
    end = start;
  }
  return lines;
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
