import type { Comparison, TermChange } from "../compare/comparison";
import { dateText } from "../plan/date";
import type { Finding } from "../rules/finding";

/**
 * A comparison as other programs read it: as it is, with dates as text, figures to a millionth, and
 * `null` for what one side lacks. `more` is said beside it.
 */
export function compareJson(comparison: Comparison, more: object = {}): string {
  const { terms, findings } = comparison;
  const data = {
    ...comparison,
    terms: { ...terms, changed: terms.changed.map(termData) },
    findings: {
      gained: findings.gained.map(findingInShort),
      lost: findings.lost.map(findingInShort),
      standsNow: findings.standsNow.map(findingInShort),
      standsNoMore: findings.standsNoMore.map(findingInShort),
    },
    ...more,
  };
  const value = (_: string, each: unknown): unknown => {
    if (each === undefined) return null;
    return typeof each === "number" ? Math.round(each * 1e6) / 1e6 : each;
  };
  return JSON.stringify(data, value, 2);
}

function termData(term: TermChange): object {
  const days = ({ from, to }: { readonly from: number; readonly to: number }): object => ({
    from: dateText(from),
    to: dateText(to),
  });
  const { dates } = term;
  return {
    ...term,
    dates: dates === undefined ? undefined : { before: days(dates.before), after: days(dates.after) },
  };
}

function findingInShort({ code, severity, message, standing, dates, players }: Finding): object {
  return { code, severity, message, standing, dates: dates.map(dateText), players };
}
