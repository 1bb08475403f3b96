import type { Piece, SourceTree } from "./piece";
import { readPiece } from "./reader";
import { beginsComment } from "./tokens";
import { DECLARATION_WORDS } from "./words";

/**
 * Cuts a file into the pieces that belong to its declarations. A piece whose text did not change since the
 * last read is the very same object again, and only the text between unchanged pieces is looked at.
 */

/** What one read hands to the next, so that unchanged pieces are kept. */
export type PieceCache = SourceTree;

/** Reads a whole file. `previous` is what the last read of it returned. */
export function readSource(text: string, previous?: PieceCache): SourceTree {
  const pieces: Piece[] = [];
  const starts: number[] = [];
  let start = 0;
  let suffix: ReadonlyMap<number, number> | undefined;
  /** Pieces of the last read whose place is gone: their text may have moved. Each is handed out once. */
  let moved: Map<string, Piece> | undefined;

  if (previous !== undefined) {
    // Where a piece ends depends on its own text and on the first lines of the next one. So of the pieces that
    // are the same from the top on, all but the last are certain.
    const old = previous.pieces;
    let same = 0;
    let at = 0;
    while (same < old.length) {
      const { text: oldText } = old[same]!;
      const end = at + oldText.length;
      if (end > text.length || text.slice(at, end) !== oldText) break;
      at = end;
      same++;
    }
    if (same === old.length && at === text.length) return previous;
    for (let i = 0; i < same - 1; i++) {
      pieces.push(old[i]!);
      starts.push(start);
      start += old[i]!.text.length;
    }
    // The same from the bottom up. A cut that falls on the start of such a piece makes the rest certain.
    const shift = text.length - (previous.starts.at(-1) ?? 0) - (old.at(-1)?.text.length ?? 0);
    const ends = new Map<number, number>();
    let last = old.length;
    while (last > pieces.length) {
      const piece = old[last - 1]!;
      const from = previous.starts[last - 1]! + shift;
      if (from <= start || text.slice(from, from + piece.text.length) !== piece.text) break;
      last--;
      ends.set(from, last);
    }
    suffix = ends;
    moved = new Map();
    for (let i = pieces.length; i < last; i++) moved.set(old[i]!.text, old[i]!);
  }

  const cutter = new Cutter(text, start);
  while (start < text.length) {
    const end = cutter.next();
    const own = text.slice(start, end);
    const kept = moved?.get(own);
    if (kept !== undefined) moved?.delete(own);
    pieces.push(kept ?? readPiece(previous === undefined ? own : detached(own)));
    starts.push(start);
    start = end;
    const rest = suffix?.get(start);
    if (rest !== undefined && previous !== undefined) {
      for (let i = rest; i < previous.pieces.length; i++) {
        const piece = previous.pieces[i]!;
        pieces.push(piece);
        starts.push(start);
        start += piece.text.length;
      }
    }
  }
  return { pieces, starts };
}

/**
 * The same letters in a string of their own. A part of a string holds on to the whole: without this, every piece
 * read after an edit would keep that moment's whole file in memory.
 */
function detached(text: string): string {
  return ` ${text}`.slice(1);
}

const declarationWord = new RegExp(`(?:${DECLARATION_WORDS.join("|")})(?![\\w-])`, "y");

/** Finds where pieces begin, line by line. */
class Cutter {
  private at: number;
  /** How many braces are open in the piece being walked through. */
  private depth = 0;
  /** Whether the piece has begun with something else than comments, and whether that was a declaration. */
  private inside: "nothing" | "declaration" | "text" = "nothing";
  /** Whether the piece holds comments that no declaration follows directly. */
  private loose = false;
  /** Where the run of comment lines just above the present line begins. */
  private comments = -1;
  /** Where the next brace, comment or unusual line end stands. */
  private telling = -1;

  constructor(
    private readonly text: string,
    start: number,
  ) {
    this.at = start;
  }

  /** The end of the piece that was begun last. */
  next(): number {
    const { text } = this;
    const { length } = text;
    while (this.at < length) {
      const start = this.at;
      let first = start;
      let code = text.charCodeAt(first);
      while (code === 32 || code === 9 || code === 0xa0 || code === 0xfeff) code = text.charCodeAt(++first);
      let opens = "nothing" as "nothing" | "declaration" | "text";
      if (code === 35 && beginsComment(text, first)) {
        if (this.comments < 0) this.comments = start;
      } else if (first >= length || code === 10 || code === 13) {
        if (this.comments >= 0) {
          this.loose = true;
          this.comments = -1;
        }
      } else {
        opens = this.opening(start, first, code);
        if (opens !== "nothing" && (this.inside !== "nothing" || this.loose)) {
          const end = this.comments >= 0 ? this.comments : start;
          this.depth = 0;
          this.inside = "nothing";
          this.loose = false;
          this.comments = -1;
          // The same line is walked through again as the first one of its piece.
          this.at = end;
          return end;
        }
        this.comments = -1;
        if (this.inside === "nothing") this.inside = opens === "declaration" ? "declaration" : "text";
      }
      this.walkLine(first);
    }
    return length;
  }

  /** Whether the line that holds this first sign begins a piece. */
  private opening(start: number, first: number, code: number): "nothing" | "declaration" | "text" {
    const atMargin = first === start || this.text.charCodeAt(start) === 0xfeff;
    if (!atMargin && this.depth > 0) return "nothing";
    if (code >= 97 && code <= 122) {
      declarationWord.lastIndex = first;
      if (declarationWord.test(this.text)) return "declaration";
    }
    if (this.depth > 0 || !isLetterOrQuote(code)) return "nothing";
    // Lines without a heading that stand below a declaration are no part of it; among themselves they are one.
    return atMargin || this.inside !== "text" ? "text" : "nothing";
  }

  /** Counts the braces of a line outside of its comment and goes to the next line. */
  private walkLine(from: number): void {
    const { text } = this;
    const { length } = text;
    if (this.telling < from) this.telling = nextTelling(text, from);
    const end = text.indexOf("\n", from);
    // On most lines nothing tells where a piece ends.
    if (end >= 0 && this.telling > end) {
      this.at = end + 1;
      return;
    }
    let at = from;
    let inName = false;
    for (; at < length; at++) {
      const code = text.charCodeAt(at);
      // Straight quotes open and close alike; curly ones say which they do.
      if (code === 34) inName = !inName;
      else if (code === 8220) inName = true;
      else if (code === 8221) inName = false;
      else if (code === 123) this.depth++;
      else if (code === 125) {
        if (this.depth > 0) this.depth--;
      } else if (code === 10) {
        at++;
        break;
      } else if (code === 13) {
        at++;
        if (text.charCodeAt(at) === 10) at++;
        break;
      } else if (code === 35 && beginsComment(text, at) && !(inName && this.isClosedAfter(at))) {
        while (at + 1 < length && text.charCodeAt(at + 1) !== 10 && text.charCodeAt(at + 1) !== 13) at++;
      }
    }
    this.at = at;
  }

  /** Whether a name that holds this sign is closed on its line: one that is half typed hides no comment. */
  private isClosedAfter(at: number): boolean {
    for (let i = at; i < this.text.length; i++) {
      const code = this.text.charCodeAt(i);
      if (code === 34 || code === 8221) return true;
      if (code === 10 || code === 13) return false;
    }
    return false;
  }
}

const telling = /[{}#\r]/g;

/** Where the first brace, sign of a comment or unusual line end stands, from an offset on. */
function nextTelling(text: string, from: number): number {
  telling.lastIndex = from;
  return telling.test(text) ? telling.lastIndex - 1 : Number.POSITIVE_INFINITY;
}

function isLetterOrQuote(code: number): boolean {
  return (code >= 97 && code <= 122) || (code >= 65 && code <= 90) || code === 34 || code > 191;
}
