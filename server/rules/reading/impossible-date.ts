import { troubleRule } from "../rule";

export const impossibleDate = troubleRule(
  "impossible-date",
  {
    severity: "error",
    title: "a date that does not exist",
    reason: "A plan is counted day by day.",
    mend: "Write the date as year-month-day, for example 2026-09-07.",
  },
  (trouble) => ({
    message: `There is no day ${trouble.text}. A date is year-month-day, like 2026-09-07, between 1900 and 2199.`,
  }),
);
