import { dayBudgetRule } from "./day-budget";

export const dayUpper = dayBudgetRule(
  {
    code: "day-upper",
    severity: "warning",
    title: "a day too much in the upper register",
    reason:
      "High playing presses hardest on the lips; too much of it in one day hurts tone and may hurt the player.",
    mend: "Fewer times through, fewer minutes, or a lower key that day.",
  },
  { quantity: "upper", figure: "dayUpper", words: "in the upper register" },
);
