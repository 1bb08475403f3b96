import { readSource } from "../../grammar/pieces";
import { unrollTerm } from "../../server/days/unroll";
import { CAUTION } from "../../server/output/totals-text";
import { termReport } from "../../server/pages/term-report";
import { playersOf } from "../../server/plan/plan";
import { checkSources } from "../../server/workspace/check-sources";

/** A plan read, and the report on each of its terms for each player, as many of these as are asked for; its length. */
export function reportOnce(text: string, most: number): number {
  const path = "plan.practice";
  const { files } = checkSources(
    {
      asked: [path],
      sources: new Map([[path, { path, text, tree: readSource(text) }]]),
      failures: new Map(),
      aliases: new Map(),
      known: new Set(),
    },
    { findings: false },
  );
  const terms = files.flatMap(({ plan }) =>
    plan.own.terms.flatMap((term) => playersOf(plan, term).map((player) => ({ plan, term, player }))),
  );
  if (terms.length < most) throw new Error(`the plan has ${terms.length} terms and players, not ${most}`);
  const unrolled = terms.slice(0, most).map(({ plan, term, player }) => unrollTerm(plan, term, player));
  return termReport({ terms: unrolled, caution: CAUTION, history: undefined }).length;
}
