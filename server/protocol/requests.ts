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
}

/** Client → server: the term around a position, week by week and day by day, for the side view. */
export const TERM_VIEW_REQUEST = "leadpipe/termView";

/** Client → server: the totals of the day under the cursor, in one line. */
export const DAY_STATUS_REQUEST = "leadpipe/dayStatus";

export interface PlaceParams {
  readonly uri: string;
  readonly position: Position;
}

/** A figure beside what is allowed, as it is said and as a share to draw. */
export interface FigureView {
  /** What is counted: clock, playing, upper, stretch. */
  readonly name: string;
  /** The figure in words: `7:07 of 5:00`. */
  readonly text: string;
  /** How far the allowance is used, 1 being all of it; undefined where nothing limits it. */
  readonly share: number | undefined;
}

export interface DayView {
  /** Year-month-day. */
  readonly date: string;
  /** The day as a person says it: `Tue 2 Feb`. */
  readonly label: string;
  /** Closed, light, concert …; empty on an ordinary day. */
  readonly state: string;
  readonly figures: readonly FigureView[];
  /** Something of the day is over what is allowed. */
  readonly over: boolean;
  /** The lines that ask for this day. */
  readonly range: Range | undefined;
}

export interface WeekView {
  readonly label: string;
  readonly figures: readonly FigureView[];
  readonly over: boolean;
  readonly range: Range | undefined;
  readonly days: readonly DayView[];
}

export interface TermView {
  readonly title: string;
  /** The player whose figures are shown; a term may be for several. */
  readonly player: string;
  readonly players: readonly string[];
  readonly range: Range;
  readonly weeks: readonly WeekView[];
}

/** Null where no term stands around the position. */
export type TermViewResult = TermView | null;

export interface TermViewParams extends PlaceParams {
  /** One of the term's players; the first where nothing is said. */
  readonly player?: string;
}

/** Null where the cursor stands on no day. */
export type DayStatusResult = {
  /** Short enough for a status line. */
  readonly text: string;
  /** More of it, in Markdown. */
  readonly more: string;
  readonly over: boolean;
} | null;

/** Client → server: the files of a new studio, from a teacher's few answers. Nothing is written by the server. */
export const NEW_STUDIO_REQUEST = "leadpipe/newStudio";

export interface NewStudioParams {
  readonly studio: string;
  /** As in `instrument trumpet in Bb`. */
  readonly instrument: string;
  /** As in `stage senior`. */
  readonly stage: string;
  /** Year-month-day. */
  readonly from: string;
  readonly to: string;
}

export interface NewStudioResult {
  /** Paths from the studio's folder. */
  readonly files: readonly { readonly path: string; readonly text: string }[];
}

/** Server → client: how the server is. */
export const STATE_NOTIFICATION = "leadpipe/state";

export interface StateParams {
  readonly state: "busy" | "ready" | "trouble";
  /** In a teacher's words; empty where there is nothing to say. */
  readonly words: string;
}
