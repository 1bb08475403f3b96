import { isMinor, keyName, tonicClass } from "../../music/key";
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
    const reached = new Set<string>();
    for (const { passes } of days.items) {
      for (const { placement } of passes) {
        const { key } = placement;
        if (key === undefined) continue;
        reached.add(`${tonicClass(key)} ${key.mode}`);
        // Any form of the minor serves where a plain minor is on the list.
        if (isMinor(key)) reached.add(`${tonicClass(key)} natural minor`);
      }
    }
    const missing = keys.value.filter((key) => !reached.has(`${tonicClass(key)} ${key.mode}`));
    if (missing.length === 0) return;
    report({
      place: days.term.place,
      message: `${days.player.name} never reaches ${list(missing.map(keyName), 12)} this term.`,
      related: keys.place === undefined ? [] : [{ place: keys.place, message: "the list of keys" }],
    });
  },
};
