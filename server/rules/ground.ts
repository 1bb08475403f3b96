import type { Piece } from "../../grammar/piece";
import type { Record } from "../plan/record";
import type { Surroundings } from "./surroundings";

/** A file's pieces with all that they are read and checked with. */
export interface Ground {
  readonly own: readonly Piece[];
  /** The files it uses, farthest first. */
  readonly used: readonly (readonly Piece[])[];
  /** What other files recorded of its terms. */
  readonly records: readonly Record[];
  readonly around: Surroundings;
}
