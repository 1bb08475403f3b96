import type { Place } from "../plan/place";

/** A change of the text that takes a finding away and brings no new one. */
export interface Fix {
  /** What it does, in a few words: "Play it twice instead of 4 times". */
  readonly title: string;
  /** The text that is replaced. */
  readonly place: Place;
  readonly text: string;
}
