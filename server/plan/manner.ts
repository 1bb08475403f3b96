import type { MarkWord } from "../../grammar/tree";
import type { Dynamic } from "../music/loudness";

/** How a note is played. Most notes are played as the one before, and share this with it. */
export interface Manner {
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
}

const NO_MARKS: readonly MarkWord[] = [];

/** Those that were asked for; with each dynamic, tonguing and attack there cannot be many. */
const known: Manner[] = [];

/** The manner of a note with nothing written at it alone; the same object for the same manner. */
export function plainManner(
  dynamic: Dynamic,
  tonguing: Manner["tonguing"],
  attack: Manner["attack"],
  tongued: boolean,
): Manner {
  for (const each of known) {
    if (
      each.dynamic === dynamic &&
      each.tonguing === tonguing &&
      each.attack === attack &&
      each.tongued === tongued
    ) {
      return each;
    }
  }
  const manner: Manner = {
    dynamic,
    hairpin: undefined,
    tongued,
    tonguing,
    attack,
    marks: NO_MARKS,
    bend: 0,
    held: false,
    tied: false,
  };
  known.push(manner);
  return manner;
}
