import type { PlayerTerm } from "../days/day";
import type { Exercise } from "../plan/exercise";
import type { Player } from "../plan/player";
import type { Term } from "../plan/term";
import type { Finding } from "../rules/finding";

/** One of two plans that are compared: a file with what it uses, or a whole folder. */
export interface PlanSide {
  readonly exercises: ReadonlyMap<string, Exercise>;
  readonly players: ReadonlyMap<string, Player>;
  /** In the order in which they are written. */
  readonly terms: readonly TermSide[];
  readonly findings: readonly Finding[];
}

/** A term and the players who meet it. */
export interface TermSide {
  readonly term: Term;
  readonly players: readonly Player[];
  /** The term as one of them meets it. Players who meet it alike may be given the same days. */
  readonly unrolled: (player: Player) => PlayerTerm;
}
