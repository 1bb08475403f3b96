import { spokenDate } from "../../plan/date";
import type { Rule } from "../rule";
import { list, quoted } from "../words";

export const walkRestarts: Rule = {
  kind: "term",
  code: "walk-restarts",
  severity: "note",
  title: "walks that start over",
  reason: "All their keys have been played before the block ends.",
  mend: "Nothing, or a longer walk, or `next round up by …`.",
  check: ({ days }, report) => {
    const [first] = [...days.restarts].sort((a, b) => a.date - b.date);
    if (first === undefined) return;
    const walks = new Set(
      days.restarts.map(({ assignment, keys }) => `${quoted(assignment.exercise)} after ${keys}`),
    );
    report({
      place: days.term.place,
      message: `Some walks are through all their keys and start over, the first on ${spokenDate(first.date)}: ${list([...walks], 4)}.`,
      date: first.date,
      related: days.restarts.slice(0, 20).map(({ assignment, date }) => ({
        place: assignment.place,
        message: `starts over on ${spokenDate(date)}`,
      })),
    });
  },
};
