import type { Names } from "../plan/names";

/** What a plan is checked against beyond itself. */
export interface Surroundings {
  /** Exercises and routines that any file of the set asks for. */
  readonly mentioned: Names;
  /** Whether the set holds a term and could be read whole; otherwise nothing is called unused. */
  readonly hasTerm: boolean;
}
