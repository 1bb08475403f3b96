import { midiOf } from "../music/pitch";
import type { Player } from "../plan/player";
import type { Term } from "../plan/term";
import type { PlayerTerm } from "./day";
import { type DaysPlan, sameGround, termGround } from "./term-ground";
import { unrollTerm } from "./unroll";

/** Ways to meet one term that are kept: an upper line moved about while typing must not pile up for ever. */
const MOST_KEPT = 100;

interface Unrolled {
  readonly ground: readonly unknown[];
  readonly byKey: Map<string, PlayerTerm>;
}

/** A term keeps its days for as long as everything they hang on stays the same. */
const unrolled = new WeakMap<Term, Unrolled>();

/**
 * Unrolls one term for many players. Days depend on a player's instrument and upper line alone, unless the term
 * changes something for that player or a lesson was recorded; players alike in these share their days. What was
 * unrolled once is not unrolled again while the text it comes from is the same.
 */
export function sharedUnrolling(plan: DaysPlan, term: Term): (player: Player) => PlayerTerm {
  const ground = termGround(plan, term);
  const before = unrolled.get(term);
  const same = before !== undefined && sameGround(before.ground, ground);
  const byKey = same ? before.byKey : new Map<string, PlayerTerm>();
  if (!same) unrolled.set(term, { ground, byKey });
  return (player) => {
    const { upperFrom } = player.figures;
    const apart =
      term.changes.some((each) => each.player.text === player.name) ||
      plan.records.some((record) => record.lines.some((line) => line.player.text === player.name));
    const line = upperFrom === undefined ? "" : midiOf(upperFrom.value);
    const key = `${player.instrument.id}|${line}|${apart ? player.name : ""}`;
    const shared = byKey.get(key);
    if (shared !== undefined) return shared.player === player ? shared : { ...shared, player };
    const days = unrollTerm(plan, term, player);
    byKey.set(key, days);
    if (byKey.size > MOST_KEPT)
      for (const oldest of [...byKey.keys()].slice(0, -MOST_KEPT)) byKey.delete(oldest);
    return days;
  };
}
