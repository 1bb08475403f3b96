import { weekBudgetRule } from "./week-budget";

export const weekClock = weekBudgetRule(
  {
    code: "week-clock",
    severity: "warning",
    title: "a week of practice too long",
    reason: "A practice longer than the day allows is left undone, or done tired.",
    mend: "Lighten a day, or leave one out.",
  },
  { quantity: "clock", figure: "weekClock", words: "of practice" },
);
