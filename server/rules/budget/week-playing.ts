import { weekBudgetRule } from "./week-budget";

export const weekPlaying = weekBudgetRule(
  {
    code: "week-playing",
    severity: "warning",
    title: "a week with too much playing",
    reason: "Lips are muscle; past their measure they swell and lose their ring.",
    mend: "Lighten a day, or leave one out.",
  },
  { quantity: "playing", figure: "weekPlaying", words: "of playing" },
);
