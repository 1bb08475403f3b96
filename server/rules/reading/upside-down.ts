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
    message: `${trouble.low} to ${trouble.high} runs backwards. Change the two over: ${trouble.high} to ${trouble.low}.`,
    mend: { title: "Change them over", text: `${trouble.high} to ${trouble.low}` },
  }),
);
