import { troubleRule } from "../rule";
import { quoted } from "../words";

export const noTempo = troubleRule(
  "no-tempo",
  {
    severity: "warning",
    title: "a tempo asked of what has none",
    reason: "Without a tempo of its own nobody knows how long it lasts at another.",
    mend: "Give printed music its tempo in the book, tempo 1/4 = 72, or ask for none.",
  },
  (trouble) => ({
    message:
      trouble.why === "printed"
        ? `${quoted(trouble.exercise)} has no tempo of its own, so this one changes nothing. Write in the exercise the tempo that its minutes were measured at (tempo 1/4 = 72).`
        : `${quoted(trouble.exercise)} is measured in minutes and has no tempo. Take it away here.`,
  }),
);
