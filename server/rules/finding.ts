import type { Place } from "../plan/place";

/** Something the teacher should know, in a musician's words. */
export interface Finding {
  /** Hyphenated words; what `let … stand` and the studio's `finding` lines use. */
  readonly code: string;
  readonly severity: "error" | "warning" | "note";
  readonly place: Place;
  /** One or two short sentences: what is the matter, the figure and the limit, what to do. */
  readonly message: string;
  /** The sum behind the figure, a line each; often empty. */
  readonly details: readonly string[];
  readonly related: readonly { readonly place: Place; readonly message: string }[];
  /** The teacher's reason where the finding is let stand; it is then shown as such and counts as a note. */
  readonly standing: string | undefined;
  /** The days it is true of, ascending; empty where days play no part. The message speaks of the first. */
  readonly dates: readonly number[];
  /** The players it is true of; empty where players play no part. */
  readonly players: readonly string[];
  /** A replacement for the text at the place that mends it, where the text alone tells. */
  readonly mend: { readonly title: string; readonly text: string } | undefined;
}
