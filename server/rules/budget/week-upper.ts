import { weekBudgetRule } from "./week-budget";

export const weekUpper = weekBudgetRule(
  {
    code: "week-upper",
    severity: "warning",
    title: "a week too much in the upper register",
    reason:
      "High playing presses hardest on the lips; too much of it in one week hurts tone and may hurt the player.",
    mend: "Lighten a day, or leave one out.",
  },
  { quantity: "upper", figure: "weekUpper", words: "in the upper register" },
);
