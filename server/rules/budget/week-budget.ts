import { spokenDate } from "../../plan/date";
import { type Summed, summed } from "../contributions";
import type { Rule, RuleInfo } from "../rule";
import { minutes } from "../words";

interface WeekBudget {
  readonly quantity: Summed;
  readonly figure: "weekClock" | "weekPlaying" | "weekUpper" | "weekLoad";
  readonly words: string;
}

/** A rule that holds a week's figure against the player's budget. */
export function weekBudgetRule(info: RuleInfo, budget: WeekBudget): Rule {
  return {
    ...info,
    kind: "term",
    check: (view, report) => {
      const stated = view.days.player.figures[budget.figure];
      if (stated === undefined) return;
      const figure = (amount: number): string =>
        budget.quantity === "load" ? `${Math.round(amount)} points` : minutes(amount);
      for (const week of view.weeks) {
        const total = summed(week, budget.quantity);
        if (total <= stated.value + 0.5) continue;
        report({
          place: view.days.term.place,
          message: `Week ${week.week}: ${figure(total)} ${budget.words} for ${view.days.player.name}, of ${figure(stated.value)} at most.`,
          details: week.days.map(
            (day) => `${figure(summed(day.totals, budget.quantity))}  ${spokenDate(day.date)}`,
          ),
          related: stated.place === undefined ? [] : [{ place: stated.place, message: "the budget" }],
          date: week.days[0]!.date,
          wholeWeek: true,
        });
      }
    },
  };
}
