import { weekBudgetRule } from "./week-budget";

export const weekLoad = weekBudgetRule(
  {
    code: "week-load",
    severity: "warning",
    title: "a week of too much load",
    reason: "The studio set a limit on the load; it models pressure, not tiredness.",
    mend: "Lighten a day, or leave one out.",
  },
  { quantity: "load", figure: "weekLoad", words: "of load" },
);
