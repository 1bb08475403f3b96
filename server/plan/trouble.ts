import type { Place } from "./place";

/**
 * What reading a tree into a plan found that cannot be meant. Plain data: the rules turn each kind into a
 * finding in the teacher's words. Whatever is in trouble is left out of the plan, the rest goes on.
 */
export type Trouble = { readonly place: Place } & (
  | { readonly kind: "impossible-date"; readonly text: string }
  | {
      readonly kind: "out-of-bounds";
      readonly what: string;
      readonly text: string;
      readonly least: number;
      readonly most: number;
    }
  | { readonly kind: "upside-down"; readonly what: string; readonly low: string; readonly high: string }
  | {
      readonly kind: "unknown-name";
      readonly what: NamedThing;
      readonly name: string;
      readonly nearest: string | undefined;
    }
  | {
      readonly kind: "duplicate-name";
      readonly what: NamedThing;
      readonly name: string;
      readonly first: Place;
    }
  | { readonly kind: "said-twice"; readonly what: string; readonly first: Place }
  | { readonly kind: "line-missing"; readonly what: string; readonly needs: string; readonly example: string }
  | { readonly kind: "like-circle"; readonly name: string }
  | { readonly kind: "unknown-instrument"; readonly text: string; readonly known: readonly string[] }
  | { readonly kind: "unknown-code"; readonly text: string; readonly nearest: string | undefined }
  | { readonly kind: "impossible-pitch"; readonly text: string }
  | { readonly kind: "impossible-value"; readonly text: string }
  | {
      readonly kind: "bar-length";
      readonly bar: number;
      readonly have: string;
      readonly want: string;
      readonly more: boolean;
      /** A last bar, shorter by what the pick-up took. */
      readonly afterPickup: boolean;
    }
  | { readonly kind: "music-slip"; readonly slip: MusicSlip }
  | { readonly kind: "degree-home"; readonly from: string; readonly key: string }
  | { readonly kind: "no-key"; readonly exercise: string; readonly why: "partials" | "printed" | "activity" }
  | { readonly kind: "no-valves"; readonly exercise: string }
  | { readonly kind: "other-mode"; readonly exercise: string; readonly home: string; readonly asked: string }
  | { readonly kind: "walk-unreachable"; readonly from: string; readonly to: string; readonly step: string }
  | { readonly kind: "no-tempo"; readonly exercise: string; readonly why: "printed" | "activity" }
  | { readonly kind: "series-endless"; readonly exercise: string }
  | { readonly kind: "when-passed-no-lesson"; readonly exercise: string }
  | { readonly kind: "rhythm-does-not-fit"; readonly exercise: string }
);

export type NamedThing = "area" | "exercise" | "routine" | "player" | "term" | "studio";

export type MusicSlip =
  | "no-value"
  | "slur-not-closed"
  | "slur-not-open"
  | "slur-inside-slur"
  | "mark-without-note"
  | "tie-to-other-pitch"
  | "tie-to-nothing"
  | "pickup-not-first"
  | "ending-without-repeat"
  | "empty";
