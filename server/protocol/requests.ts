import type { Position, Range } from "vscode-languageserver-types";

/**
 * What server and client ask of each other beyond the common protocol. The server works without any of it: an
 * editor that knows none of these requests still has every other feature.
 */

/**
 * Server → client, where the server has no disk (in a browser's worker, or for files of a virtual file system):
 * which plan files lie in these folders and below.
 */
export const FILES_REQUEST = "leadpipe/files";

export interface FilesParams {
  /** URIs of folders. */
  readonly folders: readonly string[];
}

/** URIs of plan files. */
export type FilesResult = readonly string[];

/** Server → client, for the same reason: the text of one file. */
export const TEXT_REQUEST = "leadpipe/text";

export interface TextParams {
  readonly uri: string;
}

export type TextResult =
  | { readonly text: string }
  /** Why there is no text: no such file; over the size that is read; not UTF-8; or for another reason. */
  | { readonly trouble: "missing" | "too-large" | "not-text" | "unreadable" };

/**
 * What a client says of itself in `initializationOptions`. A client that says nothing is asked for no file; the
 * server then reads the disk where it has one.
 */
export interface LeadpipeOptions {
  /** The client answers `leadpipe/files` and `leadpipe/text`. */
  readonly files?: boolean;
  /** The client shows `leadpipe/state`. */
  readonly state?: boolean;
  /** The client's hovers show pictures, and its theme is of this kind: see `leadpipe/theme`. */
  readonly theme?: ThemeParams["kind"];
}

/** Client → server: the theme became one of another kind. Pictures are drawn in ink that can be seen on it. */
export const THEME_NOTIFICATION = "leadpipe/theme";

export interface ThemeParams {
  readonly kind: "light" | "dark" | "contrast" | "contrastLight";
}

/** Client → server: the term around a position, week by week and day by day, for the side view. */
export const TERM_VIEW_REQUEST = "leadpipe/termView";

/**
 * The client's command behind a line of figures above a week: shows that week in the side view. Its arguments are the
 * file's address and a position in it.
 */
export const SHOW_WEEK = "leadpipe.showWeek";

/** Client → server: the totals of the day under the cursor; where the line is for several days, of the fullest. */
export const DAY_STATUS_REQUEST = "leadpipe/dayStatus";

export interface PlaceParams {
  readonly uri: string;
  readonly position: Position;
}

/** A figure beside what is allowed, as it is said and as a share to draw. */
export interface FigureView {
  readonly name: "clock" | "playing" | "upper" | "stretch";
  /** The figure in words: `7:07 of 5:00`. */
  readonly text: string;
  /** How far the allowance is used, 1 being all of it; undefined where nothing limits it. */
  readonly share: number | undefined;
  /** Whose figure it is; empty where it is the same for all who play the term. */
  readonly players: readonly string[];
  readonly standing: "over" | "near" | "within";
}

/** What is to be said first of a day or a week. A figure over its budget comes before anything else. */
export type Standing = "over" | "closed" | "ill" | "concert" | "light" | "near" | "within";

/** Where a view leads. */
export interface PlaceView {
  readonly uri: string;
  readonly range: Range;
}

export interface DayView {
  /** Year-month-day. */
  readonly date: string;
  /** The day as a person says it: `Tue 20 Oct`. */
  readonly label: string;
  readonly standing: Standing;
  /** Lesson, rehearsals, concert, why it is closed; empty on an ordinary day. */
  readonly remark: string;
  readonly figures: readonly FigureView[];
  /** The line that asks for this day; where a figure is over, the one that adds most to it. */
  readonly place: PlaceView | undefined;
}

export interface WeekView {
  /** `Week 3`, or `No week` for days of a week that has no number. */
  readonly label: string;
  /** `19 Oct to 24 Oct` */
  readonly dates: string;
  readonly standing: Standing;
  /** Why it is closed, how many of its days are over; empty where there is nothing to say. */
  readonly remark: string;
  readonly figures: readonly FigureView[];
  readonly place: PlaceView | undefined;
  readonly days: readonly DayView[];
}

export interface TermView {
  readonly title: string;
  /** All who play it. */
  readonly players: readonly string[];
  readonly place: PlaceView | undefined;
  readonly weeks: readonly WeekView[];
}

/** Null where the file holds no term. */
export type TermViewResult = TermView | null;

/** Null where the cursor stands on no day. */
export type DayStatusResult = {
  readonly term: string;
  readonly day: DayView;
} | null;

/** Client → server: the files of a new studio, from a teacher's few answers. Nothing is written by the server. */
export const NEW_STUDIO_REQUEST = "leadpipe/newStudio";

/** Client → server: what may be answered to the questions of a new studio. */
export const STUDIO_CHOICES_REQUEST = "leadpipe/studioChoices";

export interface NewStudioParams {
  /** What the level is called: `Seniors`. */
  readonly level: string;
  /** As in `stage senior`. */
  readonly stage: string;
  /** As in `instrument trumpet in Bb`. */
  readonly instrument: string;
  /** Days of practice a week, 1 to 7. */
  readonly daysPerWeek: number;
  /** Minutes of practice a day. */
  readonly minutes: number;
  /** The first day, year-month-day. */
  readonly from: string;
  readonly weeks: number;
}

/** Paths from the studio's folder, or what is wrong with an answer, in a teacher's words. */
export type NewStudioResult =
  | { readonly files: readonly { readonly path: string; readonly text: string }[] }
  | { readonly trouble: string };

export interface StudioChoicesResult {
  readonly instruments: readonly string[];
  readonly stages: readonly {
    readonly stage: string;
    /** Minutes and days a week where nothing else is answered. */
    readonly minutes: number;
    readonly daysPerWeek: number;
  }[];
  /** The least and the most minutes a day, and weeks, that can be asked for. */
  readonly minutes: { readonly least: number; readonly most: number };
  readonly weeks: { readonly least: number; readonly most: number };
}

/** Server → client: how the server is. */
export const STATE_NOTIFICATION = "leadpipe/state";

export interface StateParams {
  readonly state: "busy" | "ready" | "trouble";
  /** In a teacher's words; empty where there is nothing to say. */
  readonly words: string;
}
