import { Memory } from "./memory";
import type { Piece, SourceTree } from "./piece";

/** A place as editors count it: both from 0, the column in UTF-16 code units. */
export interface LineColumn {
  readonly line: number;
  readonly column: number;
}

/** Where the lines of a text begin, but for its first. */
function linesIn(text: string): readonly number[] {
  const starts: number[] = [];
  for (let at = 0; at < text.length; at++) {
    const code = text.charCodeAt(at);
    if (code === 10 || (code === 13 && text.charCodeAt(at + 1) !== 10)) starts.push(at + 1);
  }
  return starts;
}

const knownLines = new Memory<Piece, readonly number[]>();

function linesOfPiece(piece: Piece): readonly number[] {
  const known = knownLines.get(piece);
  if (known !== undefined) return known;
  const starts = linesIn(piece.text);
  knownLines.set(piece, starts);
  return starts;
}

/** Turns offsets into lines and columns and back. A line ends with `\n`, `\r\n` or a lone `\r`. */
export class LineIndex {
  // The text in parts, each of which begins where a line does: where that is, the number of that line, and where
  // the part's further lines begin, counted from the part's start.
  private readonly froms: number[] = [];
  private readonly firsts: number[] = [];
  private readonly lines: (readonly number[])[] = [];

  /** With the text's tree at hand only pieces that were not met before are looked through. */
  constructor(
    private readonly text: string,
    tree?: SourceTree,
  ) {
    if (tree === undefined || tree.pieces.length === 0) this.add(0, linesIn(text));
    else for (const [i, piece] of tree.pieces.entries()) this.add(tree.starts[i] ?? 0, linesOfPiece(piece));
  }

  /** How many lines there are; a line end at the very end begins one more. */
  get lineCount(): number {
    return (this.firsts.at(-1) ?? 0) + (this.lines.at(-1)?.length ?? 0) + 1;
  }

  /** The line and column of an offset; offsets outside of the text are moved to its ends. */
  position(offset: number): LineColumn {
    const at = Math.min(Math.max(offset, 0), this.text.length);
    const part = lastUpTo(this.froms, at);
    const inside = at - this.froms[part]!;
    const starts = this.lines[part]!;
    const line = lastUpTo(starts, inside);
    return { line: this.firsts[part]! + line + 1, column: line < 0 ? inside : inside - starts[line]! };
  }

  /** The offset of a line and column; a column beyond the line's end is moved to it. */
  offset({ line, column }: LineColumn): number {
    if (line < 0) return 0;
    const start = this.startOf(line);
    if (start === undefined) return this.text.length;
    let end = this.startOf(line + 1) ?? this.text.length;
    while (end > start && (this.text.charCodeAt(end - 1) === 10 || this.text.charCodeAt(end - 1) === 13))
      end--;
    return Math.min(start + Math.max(column, 0), end);
  }

  /** The text of a line without its end. */
  lineText(line: number): string {
    const start = this.offset({ line, column: 0 });
    return this.text.slice(start, this.offset({ line, column: Number.MAX_SAFE_INTEGER }));
  }

  private add(from: number, lines: readonly number[]): void {
    // The line that a part's last line end begins is the first of the next part.
    this.firsts.push(this.lines.length === 0 ? 0 : this.lineCount - 1);
    this.froms.push(from);
    this.lines.push(lines);
  }

  private startOf(line: number): number | undefined {
    if (line >= this.lineCount) return undefined;
    const part = lastUpTo(this.firsts, line);
    const further = line - this.firsts[part]!;
    return this.froms[part]! + (further === 0 ? 0 : this.lines[part]![further - 1]!);
  }
}

/** The index of the last of these ascending numbers that is not above a limit; -1 where all are. */
function lastUpTo(numbers: readonly number[], limit: number): number {
  let low = -1;
  let high = numbers.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (numbers[middle]! <= limit) low = middle;
    else high = middle - 1;
  }
  return low;
}
