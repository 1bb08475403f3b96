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
    // Which areas each day touches is the same for all areas, so it is gathered once.
    const touched = new Map(
      days.days.map((day) => [
        day,
        new Set(day.sessions.flatMap((session) => session.items.map((item) => item.exercise.area))),
      ]),
    );
    for (const area of plan.areas.values()) {
      const most = area.atLeastEvery ?? plan.settings.untouched;
      const touches = (day: Day): boolean => touched.get(day)?.has(area.name) === true;
      // An area a term never touches is not for this level, unless the area says how often it is meant.
      if (area.atLeastEvery === undefined && !days.days.some(touches)) continue;
      let gap = 0;
      let since = 0;
      for (const day of days.days) {
        // Short, light and concert days, and days without a session, count neither way.
        const full =
          day.state === "practice" &&
          day.share === 1 &&
          day.concert === undefined &&
          day.sessions.length > 0 &&
          !day.sessions.some((session) => session.short);
        if (touches(day)) gap = 0;
        else if (full) {
          if (gap === 0) since = day.date;
          gap++;
          if (gap === most + 1) {
            report({
              place: days.term.place,
              message: `From ${dateText(since)} on, ${days.player.name} does not touch ${quoted(area.name)} for more than ${counted(most, "practice day")}.`,
              related: [{ place: area.place, message: "the area" }],
              date: day.date,
            });
          }
        }
      }
    }
  },
};
