import type { DayItem } from "../../days/day";
import { isMinor, type Key, keyName, tonicClass } from "../../music/key";
import type { Rule } from "../rule";
import { list } from "../words";

export const keysUnreached: Rule = {
  kind: "term",
  code: "keys-unreached",
  severity: "note",
  title: "keys on the player's list that the term never reaches",
  reason: "The list is what the term was to achieve.",
  mend: "Let a walk go farther, or shorten the list.",
  check: ({ days }, report) => {
    const { keys } = days.player.figures;
    if (keys === undefined) return;
    const missing = keys.value.filter((key) => !isReached(days.items, key));
    if (missing.length === 0) return;
    report({
      place: days.term.place,
      message: `${days.player.name} never reaches ${list(missing.map(keyName), 12)} this term.`,
      related: keys.place === undefined ? [] : [{ place: keys.place, message: "the list of keys" }],
    });
  },
};

function isReached(items: readonly DayItem[], asked: Key): boolean {
  for (const { passes } of items) {
    for (const { placement } of passes) {
      const { key } = placement;
      if (key === undefined || tonicClass(key) !== tonicClass(asked)) continue;
      // Any form of the minor serves where a plain minor is on the list.
      if (key.mode === asked.mode || (asked.mode === "natural minor" && isMinor(key))) return true;
    }
  }
  return false;
}
