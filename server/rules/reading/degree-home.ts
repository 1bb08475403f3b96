import { troubleRule } from "../rule";

export const degreeHome = troubleRule(
  "degree-home",
  {
    severity: "error",
    title: "degree 1 is not the tonic",
    reason: "All degrees would be off by the same amount.",
    mend: "Write the tonic of the key after `degrees from`.",
  },
  (trouble) => ({
    message: `Degree 1 is ${trouble.from}, but the tonic of ${trouble.key} is another note. Write “degrees from” and the tonic.`,
  }),
);
