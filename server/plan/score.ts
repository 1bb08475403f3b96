import type { Span } from "../../grammar/span";
import type { Key } from "../music/key";
import type { Dynamic } from "../music/loudness";
import type { Pitch } from "../music/pitch";
import type { Fraction } from "../music/rhythm";
import type { Manner } from "./manner";

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

/** A degree of the scale; `direction` is where the line goes on to, which matters to the melodic minor. */
export interface ScaleDegree {
  readonly degree: number;
  readonly alter: number;
  readonly direction: "up" | "down";
}

/** A slur, or a slur of the lip; all notes of one pair of brackets share the same object. */
export interface Slur {
  /** Slurs of both kinds are counted through the score. */
  readonly number: number;
  readonly lip: boolean;
}

/**
 * A note of a score. A book has thousands: what they mostly have in common is shared between them, and read through
 * the note itself.
 */
export class ScoreNote {
  readonly kind = "note";

  constructor(
    /** In the home key; for a partial, undefined. */
    readonly pitch: Pitch | undefined,
    /** Set for music by degrees, so that another mode can be asked for. */
    readonly degree: ScaleDegree | undefined,
    readonly partial: number | undefined,
    /** Sounding length as a part of a whole note, tuplet included, fermata not. */
    readonly value: Fraction,
    readonly tuplet: Tuplet | undefined,
    readonly manner: Manner,
    readonly joined: Slur | undefined,
    readonly breath: boolean,
    readonly span: Span,
  ) {}

  get dynamic(): Dynamic {
    return this.manner.dynamic;
  }

  get hairpin(): Manner["hairpin"] {
    return this.manner.hairpin;
  }

  /** Whether the tongue starts it. */
  get tongued(): boolean {
    return this.manner.tongued;
  }

  get tonguing(): Manner["tonguing"] {
    return this.manner.tonguing;
  }

  get attack(): Manner["attack"] {
    return this.manner.attack;
  }

  get marks(): Manner["marks"] {
    return this.manner.marks;
  }

  /** Half steps it is bent down; 0 for none. */
  get bend(): number {
    return this.manner.bend;
  }

  /** Held to the end of the breath. */
  get held(): boolean {
    return this.manner.held;
  }

  /** Joined to the note before; then it is not struck anew. */
  get tied(): boolean {
    return this.manner.tied;
  }

  /** The numbers of the slur and the lip slur it belongs to. */
  get slur(): number | undefined {
    return this.joined?.lip === false ? this.joined.number : undefined;
  }

  get lipSlur(): number | undefined {
    return this.joined?.lip === true ? this.joined.number : undefined;
  }

  /** The same note on another pitch. */
  at(pitch: Pitch): ScoreNote {
    const { degree, partial, value, tuplet, manner, joined, breath, span } = this;
    return new ScoreNote(pitch, degree, partial, value, tuplet, manner, joined, breath, span);
  }

  /** The same note with a plain value, outside of any tuplet. */
  lasting(value: Fraction): ScoreNote {
    const { pitch, degree, partial, manner, joined, breath, span } = this;
    return new ScoreNote(pitch, degree, partial, value, undefined, manner, joined, breath, span);
  }

  /** The same note played in another manner and slur. */
  played(manner: Manner, joined: Slur | undefined): ScoreNote {
    const { pitch, degree, partial, value, tuplet, breath, span } = this;
    return new ScoreNote(pitch, degree, partial, value, tuplet, manner, joined, breath, span);
  }
}
