import type { IToken } from "chevrotain";
import { BARE } from "../../grammar/outline";
import { runRuleOver } from "../../grammar/run-rule";
import { type BlockKind, STATEMENTS } from "../../grammar/statements";
import { beginsComment, K, lex } from "../../grammar/tokens";
import type { CheckedFile } from "../workspace/check-sources";
import { endOfLine } from "./line-end";
import { type PieceAt, pieceAt } from "./tree-at";

/**
 * Where the cursor is while a line is being typed. A half-typed statement is in no tree, so this is read from
 * the letters: the braces that are open before the cursor, and the words of the statement so far.
 */
export interface WritingPlace {
  readonly piece: PieceAt | undefined;
  /** The innermost open block; undefined where its heading is nothing the language knows. */
  readonly block: BlockKind | "music" | undefined;
  /** The blocks around it, from the margin inwards, each with where its statement and its brace begin. */
  readonly around: readonly OpenBlock[];
  /** The words of the statement before the one being typed. */
  readonly said: readonly IToken[];
  /** What is typed of the word at the cursor, its opening quote included. */
  readonly prefix: string;
  /** Whether the cursor is inside a name in quotes. */
  readonly quoted: boolean;
  /** Whether nothing parts the cursor from a name before it, so that no word can begin there. */
  readonly glued: boolean;
  /** What a completion takes the place of, as offsets in the file. */
  readonly start: number;
  readonly end: number;
  /** The first sign of the cursor's line, counted from the start of the line. */
  readonly indent: number;
  /** What follows the cursor's word on its line, without spaces around it. */
  readonly rest: string;
}

/** A block whose brace is open before the cursor. Offsets are those of the file. */
export interface OpenBlock {
  readonly kind: BlockKind | "music" | undefined;
  readonly statement: number;
  readonly brace: number;
}

/** Letters of a word as it is typed: keys, dates, values and codes count as words. */
const WORD_LETTER = /[\p{L}\p{M}\p{N}_#♯♭/.-]/u;
const OPENING_QUOTE = /["“”„«]/;

/** The place of an offset; undefined where nothing is to be completed: inside a comment. */
export function writingPlace(file: CheckedFile, offset: number): WritingPlace | undefined {
  const { text } = file;
  const lineStart = startOfLine(text, offset);
  const lineEnd = endOfLine(text, offset);
  if (inComment(text, lineStart, offset)) return undefined;
  const piece = pieceAt(file.tree, offset);
  const from = piece?.start ?? 0;
  const around: OpenBlock[] = [];
  // Where the statement of the line that is being walked through begins.
  let statement = from;
  for (let at = from; at < offset; at++) {
    const code = text.charCodeAt(at);
    if (code === 10 || code === 13) {
      statement = at + 1;
    } else if (code === 123) {
      const outer = around.length === 0 ? "file" : around[around.length - 1]?.kind;
      around.push({ kind: openedBy(text.slice(statement, at), outer), statement, brace: at });
      statement = at + 1;
    } else if (code === 125) {
      around.pop();
      statement = at + 1;
    } else if (code === 35 && beginsComment(text, at)) {
      while (at + 1 < offset && text.charCodeAt(at + 1) !== 10 && text.charCodeAt(at + 1) !== 13) at++;
    }
  }
  if (piece !== undefined) closeByIndent(text, piece, around, lineStart, offset);
  const block = around.length === 0 ? "file" : around[around.length - 1]?.kind;
  const run = text.slice(Math.max(statement, lineStart), offset);
  const quote = openQuote(run);
  const quoted = quote !== undefined;
  let start = offset - (quoted ? run.length - quote : 0);
  let end = offset;
  if (quoted) {
    end = endOfName(text, start, offset, lineEnd);
  } else {
    while (start > lineStart && WORD_LETTER.test(text.charAt(start - 1))) start--;
    // In front of a word something new is begun, and the word stays.
    while (start < offset && end < lineEnd && WORD_LETTER.test(text.charAt(end))) end++;
  }
  const before = text.slice(Math.max(statement, lineStart), start);
  return {
    piece,
    block,
    around,
    said: block === undefined || block === "music" ? lex(before) : lastStatement(lex(before), block),
    prefix: text.slice(start, offset),
    quoted,
    glued: !quoted && /["“”„«»]/.test(text.charAt(start - 1)),
    start,
    end,
    indent: indentOf(text, lineStart),
    rest: text.slice(end, lineEnd).trim(),
  };
}

/** Whether the statement at the cursor could end where it stands, or has not begun. */
export function isWhole({ block, said }: WritingPlace): boolean {
  const [first] = said;
  if (first === undefined || block === undefined || block === "music") return true;
  const statement = STATEMENTS[block].get(first.tokenTypeIdx);
  if (statement === undefined) return true;
  const { fault, consumed } = runRuleOver(statement, [...said], BARE);
  return fault === undefined && consumed === said.length;
}

function startOfLine(text: string, offset: number): number {
  let at = offset;
  while (at > 0 && text.charCodeAt(at - 1) !== 10 && text.charCodeAt(at - 1) !== 13) at--;
  return at;
}

function inComment(text: string, lineStart: number, offset: number): boolean {
  for (let at = text.indexOf("#", lineStart); at >= 0 && at < offset; at = text.indexOf("#", at + 1)) {
    if (beginsComment(text, at) && openQuote(text.slice(lineStart, at)) === undefined) return true;
  }
  return false;
}

/** Where in a stretch of a line the name begins whose closing quote is still to come. */
function openQuote(run: string): number | undefined {
  let open: number | undefined;
  for (let at = 0; at < run.length; at++) {
    if (!/["“”„«»]/.test(run.charAt(at))) continue;
    if (open !== undefined) open = undefined;
    else if (OPENING_QUOTE.test(run.charAt(at))) open = at;
  }
  return open;
}

/**
 * Where the name being typed ends. With an even number of quotes on the line the next one closes it; with an
 * odd one the next belongs to another name, and only what is typed is replaced.
 */
function endOfName(text: string, start: number, offset: number, lineEnd: number): number {
  const rest = text.slice(start, lineEnd);
  if ((rest.match(/["“”„«»]/g)?.length ?? 0) % 2 !== 0) return offset;
  const close = /["“”»]/.exec(text.slice(offset, lineEnd));
  return close === null || /[{}]/.test(text.slice(offset, offset + close.index))
    ? offset
    : offset + close.index + 1;
}

/**
 * Where a brace is missing in the piece, a line that stands no further in than the line a block opens on is not in
 * that block. Who writes everything at the margin says nothing by it.
 */
function closeByIndent(
  text: string,
  { piece }: PieceAt,
  around: OpenBlock[],
  lineStart: number,
  offset: number,
): void {
  const indent = indentOf(text, lineStart);
  const last = around[around.length - 1];
  if (last === undefined || last.brace >= lineStart || indentOf(text, startOfLine(text, last.brace)) < indent)
    return;
  if (indent === 0 && lineStart === offset) return;
  let missing = 0;
  for (let at = 0; at < piece.text.length; at++) {
    const code = piece.text.charCodeAt(at);
    if (code === 123) missing++;
    else if (code === 125) missing--;
  }
  for (; missing > 0; missing--) {
    const open = around[around.length - 1];
    if (open === undefined || indentOf(text, startOfLine(text, open.brace)) < indent) return;
    around.pop();
  }
}

function indentOf(text: string, lineStart: number): number {
  let at = lineStart;
  while (text.charCodeAt(at) === 32 || text.charCodeAt(at) === 9) at++;
  return at - lineStart;
}

/** What a brace opens, by the words before it. */
function openedBy(heading: string, outer: BlockKind | "music" | undefined): OpenBlock["kind"] {
  if (outer === undefined || outer === "music") return undefined;
  const tokens = lex(heading);
  if (outer === "exercise" && tokens.some(({ tokenType }) => opensMusic.has(tokenType))) return "music";
  for (const token of tokens) {
    const block = STATEMENTS[outer].get(token.tokenTypeIdx)?.block;
    if (block !== undefined) return block;
  }
  return undefined;
}

const opensMusic = new Set([K.music, K.degrees, K.partials]);

/** Of several statements on one line the one that is being typed. */
function lastStatement(tokens: readonly IToken[], block: BlockKind): readonly IToken[] {
  let run = [...tokens];
  for (;;) {
    const first = run[0];
    const statement = first === undefined ? undefined : STATEMENTS[block].get(first.tokenTypeIdx);
    if (statement === undefined) return run;
    const { fault, consumed } = runRuleOver(statement, run, BARE);
    const next = run[consumed];
    if (fault !== undefined || next === undefined || consumed === 0) return run;
    if (!STATEMENTS[block].has(next.tokenTypeIdx)) return run;
    run = run.slice(consumed);
  }
}
