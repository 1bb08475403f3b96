import { dayBudgetRule } from "./day-budget";

export const dayLoad = dayBudgetRule(
  {
    code: "day-load",
    severity: "warning",
    title: "a day of too much load",
    reason: "The studio set a limit on the load; it models pressure, not tiredness.",
    mend: "Fewer times through, fewer minutes, or a lower key that day.",
  },
  { quantity: "load", figure: "dayLoad", words: "of load" },
);
