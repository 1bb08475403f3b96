import { troubleRule } from "../rule";

export const saidTwice = troubleRule(
  "said-twice",
  {
    severity: "error",
    title: "a line said twice",
    reason: "The first one holds; the second is not heard.",
    mend: "Take one of the two away.",
  },
  (trouble) => ({
    message: `This was already said: ${trouble.what}. The first one holds; take one of them away.`,
    related: [{ place: trouble.first, message: "said here first" }],
  }),
);
