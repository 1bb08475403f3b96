import { troubleRule } from "../rule";

export const walkUnreachable = troubleRule(
  "walk-unreachable",
  {
    severity: "error",
    title: "a walk that never arrives",
    reason: "The steps pass by the end that was named.",
    mend: "Name an end that the steps reach, or take smaller steps.",
  },
  (trouble) => ({
    message: `From ${trouble.from} by ${trouble.step} the walk never comes to ${trouble.to}. Name an end on the way, or take a smaller step.`,
  }),
);
