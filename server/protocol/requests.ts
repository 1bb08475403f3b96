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
  /** `Week 3`; for a week without a number why it has none: `half-term`, `No practice`. */
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

/** Client → server: what may be answered to the questions of a new studio. Its parameters are an empty object. */
export const STUDIO_CHOICES_REQUEST = "leadpipe/studioChoices";

export interface NewStudioParams {
  /** What the level is called: `Seniors`. */
  readonly level: string;
  /** As in `stage senior`. */
  readonly stage: string;
  /** As in `instrument trumpet in Bb`. */
  readonly instrument: string;
  /** Days of practice a week, within `StudioChoicesResult.days`. */
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
  /** The least and the most days of practice a week, minutes a day, and weeks, that can be asked for. */
  readonly days: { readonly least: number; readonly most: number };
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

/** Client → server: what the preview shows of a place in a plan. */
export const PREVIEW_REQUEST = "leadpipe/preview";

export interface PreviewParams extends PlaceParams {
  /** Whose days and range; without one, the first who plays it. */
  readonly player?: string | undefined;
  /** Where the place speaks of several weeks, which of them; without one, the first. */
  readonly week?: number | undefined;
}

/** Something that could not be read, in a teacher's words, and where. */
export interface MissingView {
  readonly text: string;
  readonly place: PlaceView | undefined;
}

/**
 * Which music is meant. The page gets it with a view and hands it back as it is; what a person chose beside goes into
 * the request that carries it.
 */
export interface MusicAsk {
  /** The plan in whose words the names are meant. */
  readonly uri: string;
  readonly exercise: string;
  /** The line of a session that asks for it. */
  readonly line: PlaceParams | undefined;
  /** Keys or combinations, by the ids of `KeyChoice`; none for the exercise's own. */
  readonly where: readonly string[];
  /** Cells of a series; undefined for as many as it says. */
  readonly cells: number | undefined;
  /** Beats to the minute, and the note value that is counted, as a part of a whole note: `1/4`. */
  readonly bpm: number | undefined;
  readonly beat: string | undefined;
  readonly player: string | undefined;
}

/** One exercise of a view. */
export interface PreviewItem {
  /** The same for the same line of the same view, however it is edited. */
  readonly id: string;
  readonly name: string;
  /** What is asked of it: key, tempo, amount, each a few words. */
  readonly asked: readonly string[];
  readonly aims: readonly string[];
  /** The line that asks for it, or else where it is declared. */
  readonly place: PlaceView | undefined;
  /** Undefined where there are no notes to show. */
  readonly music: MusicAsk | undefined;
  /** What is done where there are no notes: a printed page, an activity. */
  readonly without: string;
}

/** Charts, and the table of the numbers they are drawn from. */
export interface FiguresView {
  /** SVG text in the colours of the editor's charts. */
  readonly charts: readonly { readonly title: string; readonly svg: string }[];
  /** What stands over the columns; the first has what the rows are of. */
  readonly columns: readonly string[];
  readonly rows: readonly { readonly cells: readonly string[]; readonly place: PlaceView | undefined }[];
}

export interface PreviewView {
  readonly kind: "exercise" | "session" | "day" | "week" | "term";
  readonly title: string;
  /** Where it belongs: an area, a date, a term. */
  readonly under: readonly string[];
  readonly place: PlaceView | undefined;
  /** The taught weeks that the place speaks of, where it speaks of weeks, and which is shown. */
  readonly weeks: readonly number[];
  readonly week: number | undefined;
  /** Who can be chosen, and who is. */
  readonly players: readonly string[];
  readonly player: string | undefined;
  readonly items: readonly PreviewItem[];
  /** What is asked against what is allowed; undefined where it is of no day. */
  readonly figures: FiguresView | undefined;
  readonly missing: readonly MissingView[];
}

/** Null where the place speaks of nothing that can be shown. */
export type PreviewResult = PreviewView | null;

/** Client → server: the notation of some music, as pictures to be asked for one by one. */
export const NOTATION_REQUEST = "leadpipe/notation";

export interface NotationParams {
  readonly music: MusicAsk;
  /** A key or combination in place of those the music says: the id of a `KeyChoice`. */
  readonly where?: string | undefined;
  readonly fingerings: boolean;
  /** Pixels that there are across. */
  readonly width: number;
}

export interface KeyChoice {
  readonly id: string;
  readonly name: string;
  /** How it lies for the player, in words; empty where nothing is known. */
  readonly lies: string;
}

export interface PictureView {
  /** By which the picture is asked for. Pictures of one name are the same. */
  readonly name: string;
  /** What it shows, in words. */
  readonly title: string;
  /** The number of its first event, counted through the notation; in the picture that event is called `e0`. */
  readonly first: number;
  /**
   * Where its events stand in the text of `NotationView.uri`, four numbers each: line and character of start and end.
   */
  readonly places: readonly number[];
}

export interface NotationView {
  readonly title: string;
  /** The note value that is counted, in words, and its beats to the minute; undefined where there are no notes. */
  readonly tempo: { readonly beat: string; readonly bpm: number } | undefined;
  readonly uri: string | undefined;
  readonly pictures: readonly PictureView[];
  /** What it can be carried to: keys, or combinations of valves; with what these are called. */
  readonly by: "Key" | "Valves";
  readonly keys: readonly KeyChoice[];
  /** The marks that notes carry, each with its sign as SVG text and what it means. */
  readonly legend: readonly { readonly mark: MarkName; readonly sign: string; readonly words: string }[];
  readonly missing: readonly MissingView[];
}

export type NotationResult = NotationView | null;

/** Client → server: one picture of notation that was told of. */
export const PICTURE_REQUEST = "leadpipe/picture";

export interface PictureParams {
  readonly name: string;
}

/** The kinds of mark that a note can carry. */
export type MarkName = "upper" | "beyond" | "never" | "breath";

export interface PictureResultView {
  /**
   * SVG text in `currentColor`. Notes and rests are groups called `e0`, `e1` …, of the classes `note` and `rest`;
   * marks are groups of the class `mark` and of their names.
   */
  readonly svg: string;
  /** The notes by their names in the picture, each in words. */
  readonly notes: readonly { readonly name: string; readonly words: string }[];
}

/** `unknown` where the server has forgotten the picture; then its notation is to be asked for again. */
export type PictureResult =
  | PictureResultView
  | { readonly trouble: string; readonly unknown: boolean }
  | null;

/** Client → server: some music in time, to be sounded. */
export const SOUND_REQUEST = "leadpipe/sound";

export interface SoundParams {
  readonly music: MusicAsk;
  readonly where?: string | undefined;
  /** Beats to the minute in place of what the music says. */
  readonly bpm?: number | undefined;
  /** As it sounds, or as the written notes would. */
  readonly pitch: "sounding" | "written";
  readonly metronome: boolean;
  /** A bar counted before it begins. */
  readonly countIn: boolean;
  readonly drone: boolean;
  /** Each phrase sounded, then silence as long, for the player. */
  readonly turns: boolean;
}

/** A tone. Times are seconds from the start. */
export interface ToneView {
  readonly at: number;
  readonly until: number;
  readonly hz: number;
  /** 0 to 1. */
  readonly loud: number;
  /** Whether it goes on from the tone before without being struck. */
  readonly joined: boolean;
  readonly accent: boolean;
  /** The frequency it is bent down to and back from; undefined where it is not. */
  readonly bent: number | undefined;
}

export interface SoundView {
  readonly seconds: number;
  readonly tones: readonly ToneView[];
  /** When events (of the numbers in `PictureView.first` and on) begin, and whether it is the player's turn. */
  readonly steps: readonly {
    readonly event: number;
    readonly at: number;
    readonly until: number;
    readonly yours: boolean;
  }[];
  readonly clicks: readonly { readonly at: number; readonly strong: boolean }[];
  /** Frequencies of the drone; empty for none. */
  readonly drone: readonly number[];
  readonly tempo: {
    readonly beat: string;
    readonly bpm: number;
    readonly own: number;
    readonly least: number;
    readonly most: number;
  };
}

export type SoundResult = SoundView | null;

/** Client → server: the exercise at a place as a file for other programs. Nothing is written by the server. */
export const EXPORT_REQUEST = "leadpipe/export";

export interface ExportParams extends PlaceParams {
  readonly form: "musicxml" | "midi" | "svg";
}

export type ExportResult =
  | {
      /** A name for the file, with its ending. */
      readonly fileName: string;
      /** What goes into it, in base 64. */
      readonly bytes: string;
    }
  /** Why there is nothing to write. */
  | { readonly trouble: string };
