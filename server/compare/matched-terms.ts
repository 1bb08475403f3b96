import type { Both } from "./comparison";
import type { TermSide } from "./plan-side";

/** Terms that belong together, and those that stand alone. */
export interface MatchedTerms {
  readonly pairs: readonly Both<TermSide>[];
  readonly added: readonly TermSide[];
  readonly dropped: readonly TermSide[];
}

/**
 * Which terms of two plans belong together: those of one name; then those whose names differ only in the year
 * (“Autumn 2025” and “Autumn 2026”); then what is left, where each side has one term for the same players. Where
 * a name repeats, the first belongs to the first, the second to the second.
 */
export function matchedTerms(before: readonly TermSide[], after: readonly TermSide[]): MatchedTerms {
  const partner = new Map<TermSide, TermSide>();
  const taken = new Set<TermSide>();
  const match = (keyOf: (side: TermSide) => string, onlyOne: boolean): void => {
    const [mine, theirs] = [
      before.filter((each) => !partner.has(each)),
      after.filter((each) => !taken.has(each)),
    ];
    const byKey = grouped(theirs, keyOf);
    for (const [key, here] of grouped(mine, keyOf)) {
      const there = byKey.get(key) ?? [];
      if (onlyOne && (here.length > 1 || there.length > 1)) continue;
      for (const [i, each] of here.entries()) {
        const other = there[i];
        if (other === undefined) break;
        partner.set(each, other);
        taken.add(other);
      }
    }
  };
  match(({ term }) => term.name, false);
  match(({ term }) => withoutYears(term.name), false);
  match(({ term }) => term.players.map((player) => player.text).join("\n"), true);
  return {
    pairs: before.flatMap((each) => {
      const other = partner.get(each);
      return other === undefined ? [] : [{ before: each, after: other }];
    }),
    added: after.filter((each) => !taken.has(each)),
    dropped: before.filter((each) => !partner.has(each)),
  };
}

/** A name without its years: `Autumn 2025`, `Autumn 2025-26` and `Autumn 2025/26` are all `Autumn`. */
export function withoutYears(name: string): string {
  return name
    .replace(/\b(?:19|20|21)\d\d(?:\s*[-–/]\s*(?:\d{4}|\d{2}))?\b/g, "")
    .replace(/\s+(?=[\s,;:.]|$)/g, "")
    .trim();
}

function grouped(sides: readonly TermSide[], keyOf: (side: TermSide) => string): Map<string, TermSide[]> {
  const groups = new Map<string, TermSide[]>();
  for (const side of sides) {
    const key = keyOf(side);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [side]);
    else group.push(side);
  }
  return groups;
}
