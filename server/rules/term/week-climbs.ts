import type { Rule } from "../rule";
import { minutes, rise } from "../words";

/** Seconds of playing in a week under which nothing is said of increase. */
const SMALL_WEEK = 3600;

export const weekClimbs: Rule = {
  kind: "term",
  code: "week-climbs",
  severity: "warning",
  title: "a week that climbs too fast",
  reason: "Overuse follows when more is asked than the body is accustomed to.",
  mend: "Let minutes grow in smaller steps.",
  check: ({ days, weeks }, report) => {
    const limit = days.player.figures.weekIncrease;
    if (limit === undefined) return;
    for (let i = 1; i < weeks.length; i++) {
      const week = weeks[i]!;
      const before = weeks[i - 1]!;
      // After a holiday or a light week there is nothing fair to compare with, and a part week is no week.
      const adjoining = week.days[0]!.date - before.days[0]!.date === 7;
      if (!week.normal || !before.normal || !adjoining) continue;
      if (week.playing < SMALL_WEEK || before.playing <= 0) continue;
      const ratio = week.playing / before.playing;
      if (ratio <= 1 + limit.value + 0.005) continue;
      report({
        place: days.term.place,
        message: `Week ${week.week}: ${minutes(week.playing)} of playing for ${days.player.name} after ${minutes(before.playing)} in week ${before.week}, ${rise(ratio)} more; at most ${Math.round(limit.value * 100)} % is allowed.`,
        related: limit.place === undefined ? [] : [{ place: limit.place, message: "the increase allowed" }],
        date: week.days[0]!.date,
        wholeWeek: true,
      });
    }
  },
};
