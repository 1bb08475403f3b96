import type { Span } from "./span";
import type { Declaration } from "./tree";

/** Something that could not be read, in the writer's words. */
export interface Problem {
  /** The code that `let … stand` and the studio's `finding` lines use. */
  readonly code: ProblemCode;
  readonly span: Span;
  /** What is wrong and how it is mended, in one or two short sentences. */
  readonly message: string;
  /** A replacement for the text of `span` that mends it, where there is one. */
  readonly mend: { readonly title: string; readonly text: string } | undefined;
}

/** `unreadable`: the text does not parse. `too-deep`: brackets nested beyond the bound. `odd-letter`: a control character. */
export type ProblemCode = "unreadable" | "too-deep" | "odd-letter";

/**
 * The part of a file that belongs to one declaration: the comments above it, the declaration, and blank lines
 * down to the next. A piece whose text did not change is the very same object after an edit, and everything
 * computed from it hangs on that identity.
 */
export interface Piece {
  readonly text: string;
  /** Undefined for a piece of comments only, or of text that is no declaration. */
  readonly declaration: Declaration | undefined;
  /** Comment lines that stand alone (after the last declaration of a file). An empty string is a blank line. */
  readonly comments: readonly string[];
  readonly problems: readonly Problem[];
  /**
   * True where braces or quotes had to be guessed, or where something stands outside of the declaration: the
   * tree does not hold all of the text then, and the formatter leaves the piece as it is.
   */
  readonly verbatim: boolean;
}

/** A whole file. `starts[i]` is where `pieces[i].text` begins in the file's text. */
export interface SourceTree {
  readonly pieces: readonly Piece[];
  readonly starts: readonly number[];
}
