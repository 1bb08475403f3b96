import { dayBudgetRule } from "./day-budget";

export const dayClock = dayBudgetRule(
  {
    code: "day-clock",
    severity: "warning",
    title: "a day of practice too long",
    reason: "A practice longer than the day allows is left undone, or done tired.",
    mend: "Fewer times through, fewer minutes, or a shorter list that day.",
  },
  { quantity: "clock", figure: "dayClock", words: "of practice" },
);
