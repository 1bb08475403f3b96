import type { Piece, SourceTree } from "./piece";

/** A place as editors count it: both from 0, the column in UTF-16 code units. */
export interface LineColumn {
  readonly line: number;
  readonly column: number;
}

const knownLines = new WeakMap<Piece, readonly number[]>();

/** Where the lines of a piece begin, but for its first, counted from the start of the piece. */
function linesIn(piece: Piece): readonly number[] {
  const known = knownLines.get(piece);
  if (known !== undefined) return known;
  const starts: number[] = [];
  const { text } = piece;
  for (let at = 0; at < text.length; at++) {
    const code = text.charCodeAt(at);
    if (code === 10 || (code === 13 && text.charCodeAt(at + 1) !== 10)) starts.push(at + 1);
  }
  knownLines.set(piece, starts);
  return starts;
}

/** Turns offsets into lines and columns and back. A line ends with `\n`, `\r\n` or a lone `\r`. */
export class LineIndex {
  /** Where each line begins. */
  private readonly starts: number[] = [0];

  /** With the text's tree at hand only pieces that were not met before are looked through. */
  constructor(
    private readonly text: string,
    tree?: SourceTree,
  ) {
    const { starts } = this;
    if (tree !== undefined) {
      // A piece begins where a line does, so no line end is cut in two.
      for (const [i, piece] of tree.pieces.entries()) {
        const from = tree.starts[i] ?? 0;
        for (const start of linesIn(piece)) starts.push(from + start);
      }
      return;
    }
    for (let at = 0; at < text.length; at++) {
      const code = text.charCodeAt(at);
      if (code === 10 || (code === 13 && text.charCodeAt(at + 1) !== 10)) starts.push(at + 1);
    }
  }

  /** How many lines there are; a line end at the very end begins one more. */
  get lineCount(): number {
    return this.starts.length;
  }

  /** The line and column of an offset; offsets outside of the text are moved to its ends. */
  position(offset: number): LineColumn {
    const at = Math.min(Math.max(offset, 0), this.text.length);
    let low = 0;
    let high = this.starts.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (this.starts[middle]! <= at) low = middle;
      else high = middle - 1;
    }
    return { line: low, column: at - this.starts[low]! };
  }

  /** The offset of a line and column; a column beyond the line's end is moved to it. */
  offset({ line, column }: LineColumn): number {
    if (line < 0) return 0;
    const start = this.starts[line];
    if (start === undefined) return this.text.length;
    let end = this.starts[line + 1] ?? this.text.length;
    while (end > start && (this.text.charCodeAt(end - 1) === 10 || this.text.charCodeAt(end - 1) === 13))
      end--;
    return Math.min(start + Math.max(column, 0), end);
  }

  /** The text of a line without its end. */
  lineText(line: number): string {
    const start = this.offset({ line, column: 0 });
    return this.text.slice(start, this.offset({ line, column: Number.MAX_SAFE_INTEGER }));
  }
}
