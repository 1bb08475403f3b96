import { troubleRule } from "../rule";

export const impossiblePitch = troubleRule(
  "impossible-pitch",
  {
    severity: "error",
    title: "a note or key that cannot be written",
    reason: "It cannot be placed on the staff.",
    mend: "Write a capital letter, an accidental if any, and for a note the octave: F#4.",
  },
  (trouble) => ({
    message: `“${trouble.text}” is not a note that can be written. A note is like F#4 or Bb5, a key like F# or Bb.`,
  }),
);
