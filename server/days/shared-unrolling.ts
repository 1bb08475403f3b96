import { Memory } from "../../grammar/memory";
import { midiOf } from "../music/pitch";
import type { Player } from "../plan/player";
import type { Term } from "../plan/term";
import type { PlayerTerm } from "./day";
import { type DaysPlan, TermGround } from "./term-ground";
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
  const before = unrolled.get(term);
  const same = before?.ground.holdsIn(plan) === true;
  const { byKey, byRest } = same
    ? before
    : { byKey: new Map<string, PlayerTerm>(), byRest: new Map<string, PlayerTerm>() };
  if (!same) unrolled.set(term, { ground: new TermGround(plan, term), byKey, byRest });
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
