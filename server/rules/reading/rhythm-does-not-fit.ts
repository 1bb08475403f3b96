import { troubleRule } from "../rule";
import { quoted } from "../words";

export const rhythmDoesNotFit = troubleRule(
  "rhythm-does-not-fit",
  {
    severity: "error",
    title: "a rhythm that fits nowhere",
    reason: "No run of equal notes in a bar has its length.",
    mend: "Write values that add up to the notes they replace.",
  },
  (trouble) => ({
    message: `This rhythm fits nowhere in ${quoted(trouble.exercise)}: its values must add up to as many equal notes.`,
  }),
);
