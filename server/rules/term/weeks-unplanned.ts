import type { Rule } from "../rule";
import { list } from "../words";

export const weeksUnplanned: Rule = {
  kind: "term",
  code: "weeks-unplanned",
  severity: "note",
  title: "weeks without a session",
  reason: "Students practise what they were told to.",
  mend: "Add the weeks to a block, or close them.",
  check: ({ days, weeks }, report) => {
    const empty = weeks.filter(
      (week) =>
        !week.days.some((day) => day.sessions.length > 0) &&
        week.days.some((day) => day.state === "practice" || day.state === "light"),
    );
    if (empty.length === 0) return;
    const numbers = empty.map((week) => String(week.week));
    report({
      place: days.term.place,
      message: `Nothing is planned in ${numbers.length === 1 ? "week" : "weeks"} ${list(numbers, 20)}.`,
    });
  },
};
