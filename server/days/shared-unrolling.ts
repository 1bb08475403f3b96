import { midiOf } from "../music/pitch";
import type { Plan } from "../plan/plan";
import type { Player } from "../plan/player";
import type { Term } from "../plan/term";
import type { PlayerTerm } from "./day";
import { unrollTerm } from "./unroll";

/**
 * Unrolls one term for many players. Days depend on a player's instrument and upper line alone, unless the term
 * changes something for that player or a lesson was recorded; players alike in these share their days.
 */
export function sharedUnrolling(plan: Plan, term: Term): (player: Player) => PlayerTerm {
  const known = new Map<string, PlayerTerm>();
  return (player) => {
    const { upperFrom } = player.figures;
    const apart =
      term.changes.some((each) => each.player.text === player.name) ||
      plan.records.some((record) => record.lines.some((line) => line.player.text === player.name));
    const line = upperFrom === undefined ? "" : midiOf(upperFrom.value);
    const key = `${player.instrument.id}|${line}|${apart ? player.name : ""}`;
    const shared = known.get(key);
    if (shared !== undefined) return { ...shared, player };
    const days = unrollTerm(plan, term, player);
    known.set(key, days);
    return days;
  };
}
