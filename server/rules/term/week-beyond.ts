import type { Rule } from "../rule";
import { counted } from "../words";

export const weekBeyond: Rule = {
  kind: "term",
  code: "week-beyond",
  severity: "warning",
  title: "weeks the term does not have",
  reason: "What is planned there never comes.",
  mend: "Correct the week numbers; wholly closed weeks have none.",
  check: ({ days }, report) => {
    for (const block of days.term.weeks) {
      const last = block.weeks?.[block.weeks.length - 1];
      if (last === undefined || last <= days.weeks) continue;
      report({
        place: block.place,
        message: `The term has ${counted(days.weeks, "taught week")}; week ${last} never comes.`,
      });
    }
  },
};
