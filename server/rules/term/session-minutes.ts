import type { DaySession } from "../../days/day";
import { spokenDate } from "../../plan/date";
import { itemName } from "../contributions";
import type { Raw, Recurring, Rule } from "../rule";
import { minutes, quoted } from "../words";

/** What a session's clock time is made of; the rest after the last note is nobody's. */
function partsOf(session: DaySession): readonly string[] {
  const parts = session.items.map((item, index) => {
    const last = index === session.items.length - 1;
    return { name: itemName(item), seconds: item.clock - (last ? item.restAfter : 0) };
  });
  const pauses = session.clock - parts.reduce((sum, part) => sum + part.seconds, 0);
  if (pauses > 0.5) parts.push({ name: "the rests between", seconds: pauses });
  return parts.map((part) => `${minutes(part.seconds)}  ${part.name}`);
}

function tooLong(session: DaySession, date: number, allowed: number): Recurring {
  return { place: session.session.place, say: () => said(session, date, allowed), date };
}

function said(session: DaySession, date: number, allowed: number): Pick<Raw, "message" | "details"> {
  const [longest] = [...session.items].sort((a, b) => b.clock - a.clock);
  return {
    message: `${spokenDate(date)}: ${quoted(session.session.name)} takes ${minutes(session.clock)} of its ${minutes(allowed)}${session.short ? " (short version)" : ""}. Longest: ${longest === undefined ? "the rests" : `${itemName(longest)}, ${minutes(longest.clock)}`}.`,
    details: partsOf(session),
  };
}

export const sessionMinutes: Rule = {
  kind: "term",
  code: "session-minutes",
  severity: "warning",
  title: "a session longer than its minutes",
  reason: "What does not fit is left out by chance, usually the songs.",
  mend: "Fewer times through, less rest, or more minutes.",
  check: ({ days }, report) => {
    for (const day of days.days) {
      for (const session of day.sessions) {
        const allowed = session.content.minutes;
        if (allowed === undefined || session.clock <= allowed + 0.5) continue;
        report(tooLong(session, day.date, allowed));
      }
    }
  },
};
