import { Memory } from "../../grammar/memory";
import type { PlayerTerm } from "../days/day";
import { groundOf, type TermGround } from "../days/term-ground";
import type { Plan } from "../plan/plan";
import type { Player } from "../plan/player";
import { sameList } from "../plan/same-list";
import type { Term } from "../plan/term";
import { weekTotals } from "../totals/week";
import { datesOf } from "./dates-of";
import type { Raw, Recurring, Report, TermRule } from "./rule";

/** What the rules have to say of a term as one player meets it, in their order. */
export type Said = readonly (readonly [TermRule, Raw | Recurring])[];

interface Kept {
  readonly days: PlayerTerm["days"];
  readonly said: Said;
}

interface Reports {
  readonly ground: TermGround;
  readonly areas: readonly unknown[];
  readonly byPlayer: WeakMap<Player, Kept>;
}

/** A term keeps what was said of it for as long as everything the rules look at stays the same. */
const reports = new Memory<Term, Reports>();

/**
 * Asks the rules about one term. What they said of a player's days is kept and not worked out again while the
 * days, the player, the studio's settings and the areas are the same: of a long file, only the term that was
 * edited is looked at anew.
 */
export function termReports(plan: Plan, term: Term, rules: readonly TermRule[]): (days: PlayerTerm) => Said {
  const ground = groundOf(plan, term);
  const areas = [...plan.areas.values()];
  let kept = reports.get(term);
  if (kept === undefined || kept.ground !== ground || !sameList(kept.areas, areas)) {
    kept = { ground, areas, byPlayer: new WeakMap() };
    reports.set(term, kept);
  }
  const { byPlayer } = kept;
  return (days) => {
    const before = byPlayer.get(days.player);
    if (before !== undefined && before.days === days.days) return before.said;
    const said: (readonly [TermRule, Raw | Recurring])[] = [];
    const view = { plan, days, weeks: weekTotals(days), datesOf: datesOf(days) };
    let asked: TermRule;
    const report: Report = (raw) => {
      said.push([asked, raw]);
    };
    for (const rule of rules) {
      asked = rule;
      rule.check(view, report);
    }
    byPlayer.set(days.player, { days: days.days, said });
    return said;
  };
}
