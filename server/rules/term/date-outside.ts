import { dateText } from "../../plan/date";
import type { Rule } from "../rule";
import { quoted } from "../words";

const WHY = {
  outside: "lies outside the term",
  closed: "is closed",
  "no practice": "is no day of practice in this term",
} as const;

export const dateOutside: Rule = {
  kind: "term",
  code: "date-outside",
  severity: "warning",
  title: "a date outside the term, or closed",
  reason: "What is planned there never comes.",
  mend: "Correct the date, or the dates of the term.",
  check: ({ days }, report) => {
    for (const { date, place, why } of days.strays) {
      report({ place, message: `${dateText(date)} ${WHY[why]}: this session never comes.`, date });
    }
    for (const block of days.term.weeks) {
      for (const session of block.sessions) {
        if (session.days.kind !== "weekdays" || (session.days.set & days.term.practice) !== 0) continue;
        report({
          place: session.place,
          message: `${quoted(session.name)} never comes: the term has no practice on its weekdays.`,
        });
      }
    }
    const { from, to } = days.term.dates;
    for (const closure of days.term.closures) {
      if (closure.to >= from && closure.from <= to) continue;
      report({
        place: closure.place,
        message: `${dateText(closure.from)} lies outside the term.`,
        date: closure.from,
      });
    }
    for (const booking of days.term.bookings) {
      if (booking.days.kind !== "dates") continue;
      for (const { date, place } of booking.days.dates) {
        const closed = days.term.closures.some(
          (each) => each.how === "closed" && date >= each.from && date <= each.to,
        );
        if (date >= from && date <= to && !closed) continue;
        report({
          place,
          message: `${dateText(date)} ${closed ? "is closed" : "lies outside the term"}, and “${booking.name}” is booked for it.`,
          date,
        });
      }
    }
  },
};
