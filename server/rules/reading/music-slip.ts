import type { MusicSlip } from "../../plan/trouble";
import { troubleRule } from "../rule";

export const musicSlip = troubleRule(
  "music-slip",
  {
    severity: "error",
    title: "a slip in the music",
    reason: "The notes could not be played as written.",
    mend: "See the message.",
  },
  (trouble) => ({ message: SLIPS[trouble.slip] }),
);

const SLIPS: Readonly<Record<MusicSlip, string>> = {
  "no-value": "Say how long the first note is, for example 1/4, before it.",
  "slur-not-closed": "This slur is opened and never closed. Put a ) after its last note.",
  "slur-not-open": "A slur ends here that never began. Put a ( before its first note, or take the ) away.",
  "slur-inside-slur": "A slur begins inside another one. Close the first one before it.",
  "mark-without-note": "This belongs after a note, and there is none before it.",
  "tie-to-other-pitch": "A tie joins two notes of the same pitch; these differ. For a slur, write ( … ).",
  "tie-to-nothing": "This note is tied to the next one, and no note follows.",
  "pickup-not-first": "A pick-up stands first of all, or first in a `repeat`, before any note.",
  "ending-without-repeat": "An ending belongs after a repeat [ … ].",
  empty: "There are no notes here yet.",
};
