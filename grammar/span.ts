/**
 * A stretch of source text, counted in UTF-16 code units from the start of the *piece* it belongs to
 * (see `pieces.ts`), so that a new line above a declaration changes nothing inside it.
 */
export interface Span {
  readonly start: number;
  readonly end: number;
}
