import type { Span } from "../../grammar/span";
import type { MarkWord } from "../../grammar/tree";
import type { Key } from "../music/key";
import type { Dynamic } from "../music/loudness";
import type { Pitch } from "../music/pitch";
import type { Fraction } from "../music/rhythm";

/** The music of an exercise in its home key: bars of events, repeats not yet played out. */
export interface Score {
  readonly bars: readonly Bar[];
  /** The bars in the order they sound, repeats played out. */
  readonly order: readonly number[];
}

export interface Bar {
  readonly events: readonly ScoreEvent[];
  /** As notated, a part of a whole note. */
  readonly length: Fraction;
  /** Undefined where bars are free. */
  readonly meter: Fraction | undefined;
  /** Seconds this bar lasts whatever is written in it; undefined for a bar in time. */
  readonly freeSeconds: number | undefined;
  /** The key in force, in home position; undefined for partials. */
  readonly key: Key | undefined;
  readonly role:
    | { readonly kind: "plain" }
    | { readonly kind: "repeat" }
    | { readonly kind: "ending"; readonly number: 1 | 2 };
  /** Which repeat it belongs to, counted from 0; −1 outside. */
  readonly repeat: number;
  readonly pickup: boolean;
  readonly span: Span;
}

/** So many notes in the time of so many; all events of one pair of brackets share the same object. */
export interface Tuplet {
  readonly notes: number;
  readonly inTimeOf: number;
}

export type ScoreEvent = ScoreNote | ScoreRest;

export interface ScoreRest {
  readonly kind: "rest";
  /** As a part of a whole note, tuplet included. */
  readonly value: Fraction;
  readonly tuplet: Tuplet | undefined;
  readonly breath: boolean;
  readonly span: Span;
}

export interface ScoreNote {
  readonly kind: "note";
  /** In the home key; for a partial, undefined. */
  readonly pitch: Pitch | undefined;
  /** Set for music by degrees, so that another mode can be asked for. */
  readonly degree:
    | { readonly degree: number; readonly alter: number; readonly direction: "up" | "down" }
    | undefined;
  readonly partial: number | undefined;
  /** Sounding length as a part of a whole note, tuplet included, fermata not. */
  readonly value: Fraction;
  readonly tuplet: Tuplet | undefined;
  readonly dynamic: Dynamic;
  readonly hairpin: "cresc" | "dim" | undefined;
  /** Whether the tongue starts it. */
  readonly tongued: boolean;
  readonly tonguing: "single" | "double" | "triple";
  readonly attack: "air" | "lip" | "tongue";
  readonly marks: readonly MarkWord[];
  /** Half steps it is bent down; 0 for none. */
  readonly bend: number;
  /** Held to the end of the breath. */
  readonly held: boolean;
  /** Joined to the note before; then it is not struck anew. */
  readonly tied: boolean;
  readonly breath: boolean;
  /** Numbers of the slur and lip slur it belongs to, counted through the score. */
  readonly slur: number | undefined;
  readonly lipSlur: number | undefined;
  readonly span: Span;
}
