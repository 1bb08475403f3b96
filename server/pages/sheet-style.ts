/** What all printed pages have in common: paper, margins, and what stands in their foot. */
import type { DaySheet } from "./sheet-day";
import type { WeekSheet } from "./sheet-week";

export type Paper = "a4" | "letter";

/** Sizes in millimetres: ISO 216, and ANSI/ASME Y14.1 for Letter. */
export const PAPERS: Readonly<Record<Paper, { readonly width: number; readonly height: number }>> = {
  a4: { width: 210, height: 297 },
  letter: { width: 215.9, height: 279.4 },
};

/** White space on both sides, above and below, in millimetres: a copier loses no more than 5 (common practice). */
export const SHEET_MARGIN = 11;
export const SHEET_TOP = 9;
export const SHEET_BOTTOM = 12;
export const PACKET_MARGIN = 18;
/** Width of the words with music beside them and the space between, in millimetres. */
export const WORDS_BESIDE = 60;

/** The size of words, in points. */
export const WORDS = { plain: 10.5, large: 15 } as const;

export interface PageStyle {
  readonly paper: Paper;
  /** Larger words and staves, on as many pages as they take. */
  readonly large: boolean;
}

/** One sheet of a set. The id tells it apart when the press says which pages it took; words are so many points high. */
export type Sheet =
  | { readonly kind: "day"; readonly id: string; readonly sheet: DaySheet; readonly words: number }
  | { readonly kind: "week"; readonly id: string; readonly sheet: WeekSheet };

/** Said in the foot of every page of music. */
export const FOOT = "Stop when it hurts, whatever the page says. Rest as long as you play.";

/** Said once, on the first page of a packet. */
export const CAUTIONS: readonly string[] = [
  "Stop when it hurts, whatever the page says, and rest as long as you play.",
  "Loud rooms and long hours are hard on the ears: give them rest too.",
  "Pain, numb lips or ringing ears that stay are for your teacher to hear of, and for a doctor.",
];

/** The figures of a day or a week, in the order of the totals. */
export const FIGURES = [
  { name: "Clock", key: "clock" },
  { name: "Playing", key: "playing" },
  { name: "Upper", key: "upper" },
  { name: "Longest stretch", key: "stretch" },
  { name: "Load", key: "load" },
] as const;
