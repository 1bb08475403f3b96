import { troubleRule } from "../rule";

export const impossibleValue = troubleRule(
  "impossible-value",
  {
    severity: "error",
    title: "a note value that cannot be written",
    reason: "Bars and durations are summed from note values.",
    mend: "Write 1/1, 1/2, 1/4, 1/8, 1/16, 1/32 or 1/64, with dots if any.",
  },
  (trouble) => ({
    message: `“${trouble.text}” is not a note value. Values are 1/1, 1/2, 1/4, 1/8, 1/16, 1/32 and 1/64, with up to three dots; a meter is like 4/4 or 6/8.`,
  }),
);
