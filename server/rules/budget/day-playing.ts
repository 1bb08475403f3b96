import { dayBudgetRule } from "./day-budget";

export const dayPlaying = dayBudgetRule(
  {
    code: "day-playing",
    severity: "warning",
    title: "a day with too much playing",
    reason: "Lips are muscle; past their day they swell and lose their ring.",
    mend: "Fewer times through, fewer minutes, or a shorter list that day.",
  },
  { quantity: "playing", figure: "dayPlaying", words: "of playing" },
);
