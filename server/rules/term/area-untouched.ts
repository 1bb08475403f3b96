import type { Day } from "../../days/day";
import { dateText } from "../../plan/date";
import type { Rule } from "../rule";
import { counted, quoted } from "../words";

export const areaUntouched: Rule = {
  kind: "term",
  code: "area-untouched",
  severity: "warning",
  title: "an area left alone for too long",
  reason: "Basics are kept by touching every area nearly every day.",
  mend: "Put one of its exercises into a session, or say how often it is meant: at least every 5 days",
  check: ({ days, plan }, report) => {
    const touched = new Set<string>();
    for (const { exercise } of days.items) touched.add(exercise.area);
    // An area a term never touches is not for this level, unless the area says how often it is meant.
    const watched = [...plan.areas.values()]
      .filter((area) => area.atLeastEvery !== undefined || touched.has(area.name))
      .map((area) => ({
        area,
        most: area.atLeastEvery ?? plan.settings.untouched,
        gap: 0,
        since: 0,
        last: 0,
      }));
    const byName = new Map(watched.map((each) => [each.area.name, each]));
    for (const day of days.days) {
      for (const session of day.sessions) {
        for (const { exercise } of session.items) {
          const each = byName.get(exercise.area);
          if (each !== undefined) each.last = day.date;
        }
      }
      const full = isFull(day);
      for (const each of watched) {
        if (each.last === day.date) each.gap = 0;
        else if (full) {
          if (each.gap === 0) each.since = day.date;
          each.gap++;
          if (each.gap !== each.most + 1) continue;
          report({
            place: days.term.place,
            message: `From ${dateText(each.since)} on, ${days.player.name} does not touch ${quoted(each.area.name)} for more than ${counted(each.most, "practice day")}.`,
            related: [{ place: each.area.place, message: "the area" }],
            date: each.since,
            apart: each.area.name,
          });
        }
      }
    }
  },
};

/** Short, light, eased and concert days, and days without a session, count neither way. */
function isFull(day: Day): boolean {
  return (
    day.state === "practice" &&
    day.share === 1 &&
    day.concert === undefined &&
    day.sessions.length > 0 &&
    !day.sessions.some((session) => session.short)
  );
}
