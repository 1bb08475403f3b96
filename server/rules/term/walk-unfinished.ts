import { Memory } from "../../../grammar/memory";
import type { PlayerTerm } from "../../days/day";
import { placementName } from "../../days/placement";
import type { Raw, Rule } from "../rule";
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
    let raw = said.get(days.unfinished);
    if (raw === undefined) {
      raw = unfinished(days);
      said.set(days.unfinished, raw);
    }
    report(raw);
  },
};

/** Players walk alike far more often than they are alike; then the same is said of them all. */
const said = new Memory<PlayerTerm["unfinished"], Raw>();

function unfinished({ term, unfinished: all }: PlayerTerm): Raw {
  const walks = all.map(
    ({ assignment, left }) => `${quoted(assignment.exercise)} (${list(left.map(placementName), 3)})`,
  );
  return {
    place: term.place,
    message: `Some walks run out of days before their last keys: ${list([...new Set(walks)], 4)}.`,
    // A finding of the whole term recurs for every player; one date keeps those together.
    date: term.dates.to,
    related: all.slice(0, 20).map(({ assignment, left }) => ({
      place: assignment.place,
      message: `never reaches ${list(left.map(placementName), 7)}`,
    })),
  };
}
