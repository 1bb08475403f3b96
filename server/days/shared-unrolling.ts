import { Memory } from "../../grammar/memory";
import { midiOf } from "../music/pitch";
import type { Player } from "../plan/player";
import type { Term } from "../plan/term";
import type { PlayerTerm } from "./day";
import { type DaysPlan, groundOf, type TermGround } from "./term-ground";
import { unrollTerm } from "./unroll";
import { withUpperLine } from "./with-upper-line";

/** Ways to meet one term that are kept: an upper line moved about while typing must not pile up for ever. */
const MOST_KEPT = 100;

interface Unrolled {
  readonly ground: TermGround;
  readonly byKey: Map<string, PlayerTerm>;
  /** One of them for all upper lines. */
  readonly byRest: Map<string, PlayerTerm>;
}

/** A term keeps its days for as long as everything they hang on stays the same. */
const unrolled = new Memory<Term, Unrolled>();

/**
 * Unrolls one term for many players. Days depend on a player's instrument and upper line alone, unless the term
 * changes something for that player or a lesson was recorded; players alike in these share their days, and where
 * only the upper line differs, they share all that it does not touch. What was unrolled once is not unrolled again
 * while the text it comes from is the same.
 */
export function sharedUnrolling(plan: DaysPlan, term: Term): (player: Player) => PlayerTerm {
  const ground = groundOf(plan, term);
  let kept = unrolled.get(term);
  if (kept?.ground !== ground) {
    kept = { ground, byKey: new Map(), byRest: new Map() };
    unrolled.set(term, kept);
  }
  const { byKey, byRest } = kept;
  return (player) => {
    const { upperFrom } = player.figures;
    const apart =
      term.changes.some((each) => each.player.text === player.name) ||
      plan.records.some((record) => record.lines.some((line) => line.player.text === player.name));
    const line = upperFrom === undefined ? "" : midiOf(upperFrom.value);
    const rest = `${player.instrument.id}|${apart ? player.name : ""}`;
    const key = `${line}|${rest}`;
    const shared = byKey.get(key);
    if (shared !== undefined) return shared.player === player ? shared : { ...shared, player };
    const other = byRest.get(rest);
    const days =
      other === undefined ? unrollTerm(plan, term, player) : withUpperLine(other, player, plan.settings);
    keep(byKey, key, days);
    if (other === undefined) keep(byRest, rest, days);
    return days;
  };
}

function keep(kept: Map<string, PlayerTerm>, key: string, days: PlayerTerm): void {
  kept.set(key, days);
  if (kept.size > MOST_KEPT) for (const oldest of [...kept.keys()].slice(0, -MOST_KEPT)) kept.delete(oldest);
}
