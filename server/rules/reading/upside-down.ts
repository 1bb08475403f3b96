import { troubleRule } from "../rule";

export const upsideDown = troubleRule(
  "upside-down",
  {
    severity: "error",
    title: "a range upside down",
    reason: "Nothing lies between the two.",
    mend: "Change them over.",
  },
  (trouble) => ({
    message: `The ${trouble.what} runs backwards: ${trouble.low} comes after ${trouble.high}. Change them over.`,
    mend: { title: "Change them over", text: `${trouble.high} to ${trouble.low}` },
  }),
);
