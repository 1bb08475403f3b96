import { troubleRule } from "../rule";

export const outOfBounds = troubleRule(
  "out-of-bounds",
  {
    severity: "error",
    title: "a figure that cannot be meant",
    reason: "A slip of the pen would throw every total off.",
    mend: "Write a figure within the bounds named.",
  },
  (trouble) => ({
    message: `A ${trouble.what} of ${trouble.text} cannot be meant: it lies between ${trouble.least} and ${trouble.most}.`,
  }),
);
