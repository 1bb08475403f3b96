import type { Rule } from "../rule";
import { counted } from "../words";

export const noDayOff: Rule = {
  kind: "term",
  code: "no-day-off",
  severity: "warning",
  title: "too many days of playing in a week",
  reason: "A day off is when lips grow stronger.",
  mend: "Leave a day free of practice and rehearsals.",
  check: ({ days, weeks }, report) => {
    const stated = days.player.figures.weekDays;
    const most = stated?.value ?? 6;
    for (const week of weeks) {
      if (week.daysPlayed <= most) continue;
      report({
        place: days.term.place,
        message: `Week ${week.week}: ${days.player.name} plays on ${counted(week.daysPlayed, "day")}, of ${most} at most.`,
        related: stated?.place === undefined ? [] : [{ place: stated.place, message: "the days allowed" }],
        date: week.days[0]!.date,
        wholeWeek: true,
      });
    }
  },
};
