import { spokenDate } from "../../plan/date";
import type { Rule, RuleInfo } from "../rule";
import { minutes } from "../words";

interface WeekBudget {
  readonly quantity: "clock" | "playing" | "upper" | "load";
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
        if (week[budget.quantity] <= stated.value + 0.5) continue;
        const total = figure(week[budget.quantity]);
        report({
          place: view.days.term.place,
          message: `Week ${week.week}: ${total} ${budget.words} for ${view.days.player.name}, of ${figure(stated.value)} at most.`,
          details: week.days.map((day) => `${figure(day.totals[budget.quantity])}  ${spokenDate(day.date)}`),
          related: stated.place === undefined ? [] : [{ place: stated.place, message: "the budget" }],
          date: week.days[0]!.date,
          wholeWeek: true,
        });
      }
    },
  };
}
