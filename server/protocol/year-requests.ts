import type { PlaceParams } from "./requests";

/**
 * What server and client ask of each other about a term as a whole: its report, how it differs from what it was, and
 * the term that is begun from it. Nothing of this is written by the server.
 */

/** A page to be shown in an editor: its markup has no scripts, no addresses and no styles of its own. */
export interface PageView {
  readonly title: string;
  /** Style sheet; its colours and its face are custom properties at `:root`, to be set anew for a theme. */
  readonly style: string;
  /** What goes into the page's `main`. */
  readonly body: string;
  /** The same as a page that needs nothing beside itself; only where it was asked for. */
  readonly file: { readonly name: string; readonly text: string } | undefined;
}

/** Client → server: the report of a term. */
export const TERM_REPORT_REQUEST = "leadpipe/termReport";

export interface TermReportParams extends PlaceParams {
  /** The term by its name; where the file has none of this name, or none is said, the one at the position. */
  readonly term?: string | undefined;
  /** Whose days; without any of these, the first who plays it. */
  readonly players?: readonly string[] | undefined;
  /** Whether the page is wanted as a file too. */
  readonly file: boolean;
}

/** Null where the file holds no term. */
export type TermReportResult = {
  readonly page: PageView;
  readonly term: string;
  /** Where the term stands now, to be asked with next. */
  readonly place: PlaceParams;
  /** All who play it, and those whose days are shown. */
  readonly players: readonly string[];
  readonly shown: readonly string[];
} | null;

/** Client → server: how a plan, or a folder of plans, differs from what it was or from another. */
export const COMPARE_REQUEST = "leadpipe/compare";

/** A text that only the client can get: of an older revision, or of a folder that is not open. */
export interface OldText {
  readonly uri: string;
  /** Undefined where there is none; then `trouble` says why. */
  readonly text?: string | undefined;
  readonly trouble?: "missing" | "too-large" | "not-text" | "unreadable" | undefined;
}

export interface CompareParams {
  /** The file or folder as it is now. */
  readonly uri: string;
  readonly before: {
    /** The file or folder it is compared with; the same address where an older revision is meant. */
    readonly uri: string;
    /** What it is called in a sentence: `the last commit`. */
    readonly called: string;
    /** Plan files that were there, as far as they are known; the server says which others it needs. */
    readonly listed: readonly string[];
    readonly texts: readonly OldText[];
  };
  readonly file: boolean;
}

export type CompareResult =
  | { readonly page: PageView }
  /** Texts that are needed first: to be added to `texts` under just these addresses, and asked again. */
  | { readonly wanted: readonly string[] }
  /** Why there is nothing to compare, in a teacher's words. */
  | { readonly trouble: string };

/** Client → server: what is to be asked before a term is begun from the one at a place. */
export const CARRY_CHOICES_REQUEST = "leadpipe/carryChoices";

/** Null where the file holds no term. */
export type CarryChoicesResult = {
  readonly term: string;
  /** The old first and last day, and the same weekdays a year later; year-month-day. */
  readonly was: { readonly first: string; readonly last: string };
  readonly first: string;
  readonly last: string;
  /** The old closures, as an answer would be written; empty where there are none. */
  readonly closures: string;
  /** How many of its lines are on single days: concerts, bookings, lessons. */
  readonly bookings: number;
} | null;

/** A teacher's answers. */
export interface CarryAnswers {
  /** Year-month-day. */
  readonly first: string;
  readonly last: string;
  /** `2027-10-25 to 2027-10-30 half-term, light 2027-11-11`; empty for none. */
  readonly closures: string;
  /** Whether what is on single days is moved along by taught week. */
  readonly bookings: boolean;
}

/** Client → server: what is wrong with an answer, given those before it; its result is a sentence, or null. */
export const CARRY_CHECK_REQUEST = "leadpipe/carryCheck";

export interface CarryCheckParams {
  readonly asked: "first" | "last" | "closures";
  readonly answers: CarryAnswers;
}

/** Client → server: a new term from the one at a place. */
export const CARRY_REQUEST = "leadpipe/carry";

export interface CarryParams extends PlaceParams {
  readonly answers: CarryAnswers;
}

export type CarryResult =
  | {
      /** A name for the file, without its ending: where there is such a file, another is to be chosen. */
      readonly name: string;
      readonly text: string;
      readonly term: string;
      /** What the new term does not have, and why; undefined where it has everything. */
      readonly leftOut: PageView | undefined;
    }
  | { readonly trouble: string };
