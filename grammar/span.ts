/**
 * A stretch of source text, counted in UTF-16 code units from the start of the *piece* it belongs to
 * (see `pieces.ts`), so that a new line above a declaration changes nothing inside it.
 */
export interface Span {
  readonly start: number;
  readonly end: number;
}

/** Up to where in a piece, and up to what length, spans are shared: the words of exercises, and of terms as they begin. */
const SHARED_STARTS = 512;
const SHARED_LENGTHS = 16;

/** The shared spans by their start, and of one start by their length. */
const shared = new Array<(Span | undefined)[] | undefined>(SHARED_STARTS).fill(undefined);

/**
 * The span from `start` to `end`, which is exclusive. Places in pieces repeat: every exercise begins with its name at
 * the same place, and every edit reads the same words again. So short spans are made once, and are the same object
 * wherever they occur.
 */
export function spanOf(start: number, end: number): Span {
  const length = end - start;
  // What stands further on or is longer gets its own; so does what stands nowhere, while the grammar is recorded.
  if (!(start >= 0 && start < SHARED_STARTS && length >= 0 && length < SHARED_LENGTHS)) return { start, end };
  let there = shared[start];
  if (there === undefined) {
    there = new Array<Span | undefined>(SHARED_LENGTHS).fill(undefined);
    shared[start] = there;
  }
  let span = there[length];
  if (span === undefined) {
    span = { start, end };
    there[length] = span;
  }
  return span;
}
