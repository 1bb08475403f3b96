import type { PlaceParams } from "./requests";

/** What is asked of pages for the music stand. Everything is made by the server and written by the client. */

export type PrintWhat = "day" | "week" | "packet";

/** Client → server: what there is to choose from, for a place in a plan. */
export const PRINT_CHOICES_REQUEST = "leadpipe/printChoices";

export interface PrintChoicesParams extends PlaceParams {
  readonly what: PrintWhat;
  /** The day it is where the teacher is, year-month-day: the server does not ask for the time. */
  readonly today: string;
}

/** A day, or a week by its Monday. */
export interface PrintDate {
  /** Year-month-day. */
  readonly date: string;
  /** `Tuesday 20 October 2026`, `Week of Monday 19 October 2026` */
  readonly label: string;
  /** `Week 3`; empty where several terms each count their own weeks. */
  readonly detail: string;
}

/** One thing that pages can be of: the term at the cursor, the whole studio, or the book. */
export interface PrintScope {
  readonly of: "term" | "studio" | "book";
  /** The name of the term; empty for the studio, and for a book that has no name. */
  readonly title: string;
  /** Who plays it; nobody for a book. */
  readonly players: readonly string[];
  /** In the order of the calendar; none for packets. */
  readonly dates: readonly PrintDate[];
  /** The index of the likeliest of them: where the cursor is, or what comes next. */
  readonly likely: number;
}

/** The likeliest scope first; or why there is nothing to print. */
export type PrintChoicesResult = { readonly scopes: readonly PrintScope[] } | { readonly trouble: string };

/** Client → server: pages. While they are being made, `leadpipe/printProgress` tells how far they are. */
export const PRINT_REQUEST = "leadpipe/print";

export interface PrintParams {
  /** A number that the client has not used before; progress is told by it. */
  readonly job: number;
  /** The plan in which the term or the book is. */
  readonly uri: string;
  readonly what: PrintWhat;
  readonly of: PrintScope["of"];
  /** The name of the term. */
  readonly term?: string | undefined;
  /** One player; without one, everybody. */
  readonly player?: string | undefined;
  /** Of several players: whether each has a file. */
  readonly apart: boolean;
  /** The day, or any day of the week, year-month-day; not for packets. */
  readonly date?: string | undefined;
  /** The keys of a packet. */
  readonly keys: "travelled" | "home" | "all";
  readonly paper: "a4" | "letter";
  readonly large: boolean;
  /** Web pages although PDF could be had. */
  readonly html: boolean;
}

export type PrintResult =
  | {
      readonly files: readonly {
        /** A name for the file, with its ending: `.pdf`, or `.html` where PDF cannot be made. */
        readonly name: string;
        /** In base 64. */
        readonly bytes: string;
      }[];
      /** What is to be said of the pages: letters that no face has, days that take two pages. */
      readonly remarks: readonly string[];
    }
  | {
      /** Why there are no pages. */
      readonly trouble: string;
      /** Whether web pages could be had all the same. */
      readonly web: boolean;
    };

/** Server → client: how far pages are. */
export const PRINT_PROGRESS_NOTIFICATION = "leadpipe/printProgress";

export interface PrintProgressParams {
  readonly job: number;
  /** `12 of 80 pictures engraved` */
  readonly words: string;
}
