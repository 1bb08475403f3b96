import { placementName } from "../../days/placement";
import type { Rule } from "../rule";
import { list, quoted } from "../words";

export const walkUnfinished: Rule = {
  kind: "term",
  code: "walk-unfinished",
  severity: "note",
  title: "walks that never come to their end",
  reason: "The block has fewer days than the walk has keys; the farthest keys are the ones that are missed.",
  mend: "More days, a shorter walk, or `all keys …`.",
  check: ({ days }, report) => {
    if (days.unfinished.length === 0) return;
    const walks = days.unfinished.map(
      ({ assignment, left }) => `${quoted(assignment.exercise)} (${list(left.map(placementName), 3)})`,
    );
    report({
      place: days.term.place,
      message: `Some walks run out of days before their last keys: ${list([...new Set(walks)], 4)}.`,
      // A finding of the whole term recurs for every player; one date keeps those together.
      date: days.term.dates.to,
      related: days.unfinished.slice(0, 20).map(({ assignment, left }) => ({
        place: assignment.place,
        message: `never reaches ${list(left.map(placementName), 7)}`,
      })),
    });
  },
};
