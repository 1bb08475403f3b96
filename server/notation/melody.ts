/** A melody as it was found in a file of another program: what the language can say of it, and what was left out. */
import type { Fraction } from "../music/rhythm";

export interface Melody {
  readonly title: string;
  /** As the language types it: `F major`. */
  readonly key: string;
  /** `3/4`, or `free`. */
  readonly meter: string;
  readonly tempo: { readonly beat: string; readonly bpm: number };
  readonly pickup: boolean;
  readonly bars: readonly MelodyBar[];
  /** In words, with counts: "12 lyrics", "1 grace note". */
  readonly leftOut: readonly string[];
  /** Lines of the exercise that the file said nothing of: "tempo 1/4 = 60". */
  readonly supplied: readonly string[];
}

export interface MelodyBar {
  readonly events: readonly MelodyEvent[];
  /** Set where they change. */
  readonly key: string | undefined;
  readonly meter: string | undefined;
  readonly forward: boolean;
  readonly backward: boolean;
  readonly ending: 1 | 2 | undefined;
}

export interface MelodyEvent {
  /** `F#4`, or `rest`. */
  readonly pitch: string;
  /** As printed, without its tuplet. */
  readonly value: Fraction;
  readonly tuplet: { readonly notes: number; readonly inTimeOf: number } | undefined;
  /** Whether a tuplet's bracket begins here. */
  readonly tupletStarts: boolean;
  /** Words that stand before it: `p`, `cresc`. */
  readonly before: readonly string[];
  /** Words that stand after it: `accent`, `trill`. */
  readonly marks: readonly string[];
  readonly tied: boolean;
  readonly breath: boolean;
  readonly slurStarts: boolean;
  readonly slurEnds: boolean;
}
