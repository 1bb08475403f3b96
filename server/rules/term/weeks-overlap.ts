import { spokenDate } from "../../plan/date";
import type { Rule } from "../rule";

export const weeksOverlap: Rule = {
  kind: "term",
  code: "weeks-overlap",
  severity: "warning",
  title: "two sessions of one name on one day",
  reason: "One of them was probably meant for other weeks.",
  mend: "Change the weeks or days of one, or give it another name.",
  check: ({ days }, report) => {
    for (const { date, first, second } of days.overlaps) {
      report({
        place: second,
        message: `${spokenDate(date)} already has a session of this name. Change the weeks or the days of one, or give it another name.`,
        related: [{ place: first, message: "the other one" }],
        date,
      });
    }
  },
};
