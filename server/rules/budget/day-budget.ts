import type { Day } from "../../days/day";
import { spokenDate } from "../../plan/date";
import type { PlayerFigures } from "../../plan/player";
import {
  type Contribution,
  contributionLine,
  contributionName,
  contributions,
  type Summed,
  summed,
} from "../contributions";
import type { Raw, Report, Rule, RuleInfo, TermView } from "../rule";
import { minutes } from "../words";

interface DayBudget {
  readonly quantity: Summed;
  readonly figure: "dayClock" | "dayPlaying" | "dayUpper" | "dayLoad";
  /** "in the upper register", after "6:12". */
  readonly words: string;
}

/** A rule that holds a day's figure against the player's budget. */
export function dayBudgetRule(info: RuleInfo, budget: DayBudget): Rule {
  return {
    ...info,
    kind: "term",
    check: (view, report) => {
      const stated = (view.days.player.figures as PlayerFigures)[budget.figure];
      if (stated === undefined) return;
      for (const day of view.days.days) {
        // Half a second over is rounding, not overload.
        if (summed(day.totals, budget.quantity) > stated.value + 0.5) overBudget(view, day, budget, report);
      }
    },
  };
}

function overBudget(view: TermView, day: Day, budget: DayBudget, report: Report): void {
  const { player } = view.days;
  const stated = player.figures[budget.figure]!;
  const all = contributions(day, budget.quantity);
  const most = all[0];
  if (most === undefined) return;
  // What adds most is marked, be it practice or a rehearsal.
  const { item } = most;
  const place = item === undefined ? most.booking.place : item.assignment.place;
  const related: NonNullable<Raw["related"]>[number][] = [];
  if (stated.place !== undefined) related.push({ place: stated.place, message: "the budget" });
  if (item !== undefined) related.push({ place: item.exercise.place, message: "the exercise" });
  report({
    place,
    say: () => said(view.days.player.name, stated.value, day, budget, all, most),
    related,
    date: day.date,
  });
}

function said(
  player: string,
  stated: number,
  day: Day,
  { quantity, words }: DayBudget,
  all: readonly Contribution[],
  most: Contribution,
): Pick<Raw, "message" | "details"> {
  const figure = (amount: number): string =>
    quantity === "load" ? `${Math.round(amount)} points` : minutes(amount);
  const total = figure(summed(day.totals, quantity));
  let message = `${spokenDate(day.date)}: ${total} ${words} for ${player}, of ${figure(stated)} at most.`;
  const { concert } = day;
  if (concert !== undefined && quantity !== "clock") {
    const left = Math.max(0, stated - concert.asks[quantity]);
    message += ` The concert leaves ${figure(left)} for practice.`;
  } else message += ` Most of it: ${contributionName(most)}, ${figure(most.amount)}.`;
  return { message, details: all.slice(0, 6).map((each) => contributionLine(each, quantity)) };
}
