import type { Piece } from "../../grammar/piece";
import type { Span } from "../../grammar/span";

/**
 * Where something is written: a span inside a piece of a file. It is turned into a line and column only when
 * it is shown, so that text added above changes nothing here.
 */
export interface Place {
  readonly piece: Piece;
  readonly span: Span;
}
