import { spokenDate } from "../../plan/date";
import type { Rule } from "../rule";
import { minutes, quoted } from "../words";

/** Seconds of playing in a session up to which rest is not asked for. Common practice, no source. */
const SHORT_SESSION = 600;

export const tooLittleRest: Rule = {
  kind: "term",
  code: "too-little-rest",
  severity: "warning",
  title: "too little rest in a session",
  reason: "Resting as much as one plays is an old rule; lips that rest learn faster.",
  mend: "`rest equal` on the long exercises, or `rest 1 min` between two.",
  check: ({ days, plan }, report) => {
    for (const day of days.days) {
      for (const session of day.sessions) {
        if (session.playing <= SHORT_SESSION) continue;
        const rest = session.clock - session.playing;
        if (rest >= session.clock * plan.settings.rest) continue;
        report({
          place: session.session.place,
          message: `${spokenDate(day.date)}: ${quoted(session.session.name)} has ${minutes(rest)} of rest in ${minutes(session.clock)}; at least ${Math.round(plan.settings.rest * 100)} % is the studio's rule.`,
          date: day.date,
        });
      }
    }
  },
};
