import type { DaySession } from "../../days/day";
import { spokenDate } from "../../plan/date";
import type { Recurring, Rule } from "../rule";
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
        if (session.clock - session.playing >= session.clock * plan.settings.rest) continue;
        report(tooLittle(session, day.date, plan.settings.rest));
      }
    }
  },
};

function tooLittle({ session, clock, playing }: DaySession, date: number, least: number): Recurring {
  return {
    place: session.place,
    say: () => {
      const rest = `${minutes(clock - playing)} of rest in ${minutes(clock)}`;
      return {
        message: `${spokenDate(date)}: ${quoted(session.name)} has ${rest}; at least ${Math.round(least * 100)} % is the studio's rule.`,
      };
    },
    date,
  };
}
