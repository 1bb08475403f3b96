import { spokenDate } from "../../plan/date";
import { itemName } from "../contributions";
import type { Rule } from "../rule";
import { minutes } from "../words";

export const dayStretch: Rule = {
  kind: "term",
  code: "day-stretch",
  severity: "warning",
  title: "too long without the horn coming down",
  reason: "Lips need blood; without a rest they stiffen, and the player presses.",
  mend: "Give an exercise a rest (`rest equal`, `rest 20 s`), put `rest 1 min` between two, or play fewer times.",
  check: ({ days, plan }, report) => {
    const stated = days.player.figures.dayStretch;
    if (stated === undefined) return;
    for (const day of days.days) {
      for (const session of day.sessions) {
        if (session.stretch <= stated.value + 0.5 || session.stretchItem === undefined) continue;
        report({
          place: session.stretchItem.assignment.place,
          message: `${spokenDate(day.date)}: ${minutes(session.stretch)} at a stretch for ${days.player.name}, of ${minutes(stated.value)} at most. Most of it: ${itemName(session.stretchItem)}. A rest of ${plan.settings.hornDown} s or more lets the horn come down.`,
          related: stated.place === undefined ? [] : [{ place: stated.place, message: "the budget" }],
          date: day.date,
        });
      }
    }
  },
};
