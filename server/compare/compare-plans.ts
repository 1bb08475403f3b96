import { bookChanges } from "./book-changes";
import type { Both, Comparison } from "./comparison";
import { findingChanges, type SameName } from "./finding-changes";
import { matchedTerms } from "./matched-terms";
import type { PlanSide } from "./plan-side";
import { playerChanges } from "./player-changes";
import { termChange } from "./term-change";

/**
 * Two plans compared. Terms are laid side by side by taught week and not by date, so that a term moved into
 * another year differs in nothing but its dates; what is written otherwise and means the same does not differ.
 */
export function comparePlans({ before, after }: Both<PlanSide>): Comparison {
  const book = bookChanges(before.exercises, after.exercises);
  const newNames = new Map(book.renamed.map((each) => [each.before, each.after]));
  const oldNames = new Map(book.renamed.map((each) => [each.after, each.before]));
  const renaming = {
    newName: (name: string): string => newNames.get(name) ?? name,
    oldName: (name: string): string => oldNames.get(name) ?? name,
  };
  const terms = matchedTerms(before.terms, after.terms);
  // Both sides of a pair are known under one name, in an order that does not hang on which comes first.
  const common = ({ before: a, after: b }: Both<string>): string => (a < b ? `${a}\n${b}` : `${b}\n${a}`);
  const termPairs = terms.pairs.map((pair) => ({
    before: pair.before.term.name,
    after: pair.after.term.name,
  }));
  const sameName = (side: "before" | "after"): SameName => {
    const exercises = new Map(book.renamed.map((each) => [each[side], common(each)]));
    const named = new Map(termPairs.map((each) => [each[side], common(each)]));
    return (kind, name) =>
      (kind === "exercise" ? exercises : kind === "term" ? named : undefined)?.get(name) ?? name;
  };
  return {
    book,
    players: playerChanges(before.players, after.players),
    terms: {
      added: terms.added.map((each) => each.term.name),
      dropped: terms.dropped.map((each) => each.term.name),
      changed: terms.pairs.flatMap((pair) => termChange(pair, renaming) ?? []),
    },
    findings: findingChanges(
      { before: before.findings, after: after.findings },
      { before: sameName("before"), after: sameName("after") },
    ),
  };
}
