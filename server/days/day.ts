import type { Exercise } from "../plan/exercise";
import type { Place } from "../plan/place";
import type { Player } from "../plan/player";
import type { Assignment, Booking, Session, SessionContent, Term } from "../plan/term";
import type { Trouble } from "../plan/trouble";
import type { Profile } from "../profile/profile";
import type { Placement } from "./placement";

/** Seconds, except the load in points. */
export interface Sums {
  readonly clock: number;
  readonly playing: number;
  readonly upper: number;
  readonly load: number;
}

/** So many times through in one place. */
export interface Pass {
  readonly placement: Placement;
  readonly times: number;
}

/** An assignment on one day, measured. */
export interface DayItem extends Sums {
  readonly assignment: Assignment;
  readonly exercise: Exercise;
  readonly profile: Profile;
  readonly passes: readonly Pass[];
  /** Seconds a whole note lasts; 0 where nothing is counted. */
  readonly wholeSeconds: number;
  /** Beats to the minute as asked, in the assignment's own note value; undefined without a tempo. */
  readonly bpm: number | undefined;
  /** The fastest that may be chosen; equal to `bpm` without a choice. */
  readonly fastest: number | undefined;
  /** Seconds of rest after each time through. */
  readonly restAfter: number;
}

export interface DaySession extends Sums {
  readonly session: Session;
  /** What was played of it: its short version or itself. */
  readonly content: SessionContent;
  readonly short: boolean;
  readonly items: readonly DayItem[];
  /** Seconds. */
  readonly stretch: number;
  /** The item that fills most of the longest stretch. */
  readonly stretchItem: DayItem | undefined;
}

export type DayState = "practice" | "light" | "closed" | "ill" | "free";

export interface Day {
  readonly date: number;
  /** Its taught week; undefined in a week that has none. */
  readonly week: number | undefined;
  readonly state: DayState;
  readonly lesson: boolean;
  readonly concert: Booking | undefined;
  readonly bookings: readonly Booking[];
  readonly sessions: readonly DaySession[];
  /** Part of the amounts that are asked for: 1, less when easing, light or coming back. */
  readonly share: number;
  /** Practice and bookings together; the clock of practice alone. */
  readonly totals: Sums & { readonly stretch: number };
}

/** A term unrolled for one player. */
export interface PlayerTerm {
  readonly term: Term;
  readonly player: Player;
  readonly days: readonly Day[];
  /** Every distinct item of its days, in the order they first come. */
  readonly items: readonly DayItem[];
  /** Number of taught weeks. */
  readonly weeks: number;
  readonly troubles: readonly Trouble[];
  /** Walks that never come to their last keys, with those that are left. */
  readonly unfinished: readonly { readonly assignment: Assignment; readonly left: readonly Placement[] }[];
  /** Walks that have been through all their keys, with the day on which each first starts over. */
  readonly restarts: readonly {
    readonly assignment: Assignment;
    readonly keys: number;
    readonly date: number;
  }[];
  /** Weeks and days for which two sessions of one name are planned. */
  readonly overlaps: readonly { readonly date: number; readonly first: Place; readonly second: Place }[];
  /** Sessions that fall outside the days of practice. */
  readonly strays: readonly {
    readonly date: number;
    readonly place: Place;
    readonly why: "closed" | "no practice" | "outside";
  }[];
}
