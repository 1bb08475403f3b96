import type { IToken } from "chevrotain";
import type { Problem } from "./piece";
import { type Span, spanOf } from "./span";
import {
  BlockToken,
  BracedName,
  CloseBrace,
  CloseBracket,
  Comment,
  endOf,
  K,
  LineEnd,
  madeToken,
  marking,
  meansInMusic,
  OpenBrace,
  OpenBracket,
  OpenName,
  OtherSign,
} from "./tokens";
import type { Block, Music, Trivia } from "./tree";

/**
 * The outline of a piece: its lines, and each `{ … }` folded into one token of the line it opens on. Braces are
 * matched here, once, by a loop that cannot overflow; the parser then reads single statements and never has to
 * recover from a missing brace.
 */

/** Brackets and braces may stand inside this many others. */
export const DEEPEST = 32;

/** Lines of tokens: those of the piece itself, or those of a block. */
export interface Lines {
  /** All of their tokens, with a line end between two lines. */
  readonly tokens: IToken[];
  readonly lines: Line[];
}

/** One line of tokens with what surrounds it. */
export interface Line {
  /** Where its tokens begin and end among those of all its lines; `to` is exclusive. */
  readonly from: number;
  to: number;
  before: string[];
  blank: boolean;
  after: string | undefined;
}

/** What a `BlockToken` carries. */
export interface FoldedBlock extends Lines {
  /** The tokens between the braces of music, line ends included; undefined for other blocks. */
  music: IToken[] | undefined;
  /** True where each of those is known to mean something in music. */
  meant: boolean;
  span: Span;
  /** True where the author wrote the whole block on one line. */
  inline: boolean;
  /** Comment lines between the last statement and the closing brace. An empty string is a blank line. */
  closing: string[];
  /** The node of a block or of music, once the statement around it has been read: only then is it known which. */
  node: Mutable<Block<unknown>> | undefined;
  musicNode: Mutable<Music> | undefined;
}

/** The node of a folded block. Its items are filled in when the statement around it has been read. */
export function blockNode(folded: FoldedBlock): Mutable<Block<unknown>> {
  const { span, inline, closing } = folded;
  folded.node ??= { span, items: [], inline, closing };
  return folded.node;
}

/** The node of folded music. Its elements are filled in when the statement around it has been read. */
export function musicNode(folded: FoldedBlock): Mutable<Music> {
  const { span, inline } = folded;
  folded.musicNode ??= { span, elements: [], inline };
  return folded.musicNode;
}

/** The tree's nodes while they are being built. */
export type Mutable<T> = {
  -readonly [P in keyof T]: T[P] extends readonly (infer E)[] ? E[] : T[P];
};

export interface Outline extends Lines {
  /** Comment lines after the last line. */
  readonly closing: string[];
  readonly problems: Problem[];
  /** True where braces or quotes had to be guessed, so that the text should be left as it stands. */
  readonly guessed: boolean;
}

/** What is being filled: the piece itself, or a block that is still open. */
interface Frame {
  tokens: IToken[];
  lines: Line[];
  current: Line | undefined;
  pending: string[];
  music: IToken[] | undefined;
  /** The token that the block is folded into, and what it carries. */
  token: IToken | undefined;
  block: FoldedBlock | undefined;
  open: IToken | undefined;
  /** Indentation of the line that the brace opens on, to find where a missing brace belongs. */
  indent: number;
  header: number;
  /** The author does not indent here, so indentation says nothing. */
  flat: boolean;
}

function frame(open: IToken | undefined, indent: number, header: number): Frame {
  return {
    tokens: [],
    lines: [],
    current: undefined,
    pending: [],
    music: undefined,
    block: undefined,
    token: undefined,
    open,
    indent,
    header,
    flat: indent === 0,
  };
}

/** Comment lines gathered so far, as the trivia of the statement they stand above. An empty string is a blank line. */
function takePending(at: Frame): { before: string[]; blank: boolean } {
  const before = at.pending;
  if (before.length === 0) return { before: NOTHING, blank: false };
  at.pending = [];
  const blank = before[0] === "";
  if (blank) before.shift();
  return { before, blank: blank && at.lines.length > 0 };
}

const NOTHING: string[] = [];

/** Stands between two lines. */
const LINE_END = madeToken(LineEnd, "\n", 0, 0);

/** What comments remain before a closing brace. */
function closingComments(at: Frame): string[] {
  const comments = at.pending;
  while (comments.at(-1) === "") comments.pop();
  if (at.lines.length === 0 && comments[0] === "") comments.shift();
  return comments;
}

/** The column of the first sign on the line that holds this offset. */
function indentAt(text: string, offset: number): number {
  let start = offset;
  while (start > 0 && text.charCodeAt(start - 1) !== 10 && text.charCodeAt(start - 1) !== 13) start--;
  let at = start;
  while (at < offset && text.charCodeAt(at) <= 32) at++;
  return at - start;
}

/** Whether no line ends in this stretch of the text. */
function isOneLine(text: string, start: number, end: number): boolean {
  for (let at = start; at < end; at++) {
    const code = text.charCodeAt(at);
    if (code === 10 || code === 13) return false;
  }
  return true;
}

/** Folds the tokens of one piece into lines and blocks. */
export function outline(text: string, tokens: readonly IToken[]): Outline {
  let missing = 0;
  for (const { tokenType } of tokens) {
    if (tokenType === OpenBrace) missing++;
    else if (tokenType === CloseBrace) missing--;
  }
  return new Folder(text, missing).fold(tokens);
}

/** What says something of lines and blocks. All else belongs to the line it stands on, and is taken over in runs. */
const TELLING = marking([
  ...[LineEnd, Comment, OpenBrace, CloseBrace, OpenBracket, CloseBracket, OpenName, BracedName, OtherSign],
]);

function isTelling({ tokenTypeIdx }: IToken): boolean {
  return TELLING[tokenTypeIdx] === true;
}

/** Where the run of tokens that say nothing of lines and blocks ends. */
function endOfRun(tokens: readonly IToken[], from: number): number {
  let end = from;
  while (end < tokens.length && !isTelling(tokens[end]!)) end++;
  return end;
}

class Folder {
  private readonly frames: Frame[] = [frame(undefined, -1, 0)];
  private readonly problems: Problem[] = [];
  private at: Frame = this.frames[0]!;
  private guessed = false;
  private brackets = 0;
  /** Tokens seen since the last line end. */
  private onLine = 0;
  private previous: IToken | undefined;
  private missingAt: { last: IToken; braces: string; header: string } | undefined;

  constructor(
    private readonly text: string,
    /** How many more braces open than close: only then is indentation asked where one is missing. */
    private missing: number,
  ) {}

  fold(tokens: readonly IToken[]): Outline {
    for (let i = 0; i < tokens.length; i++) {
      const token = tokens[i]!;
      const type = token.tokenType;
      if (!isTelling(token)) {
        const end = endOfRun(tokens, i);
        if (this.onLine === 0 && this.missing > 0 && this.frames.length > 1) this.closeByIndent(token);
        this.add(tokens, i, end);
        this.onLine += end - i;
        i = end - 1;
        this.previous = tokens[i];
        continue;
      }
      if (type === LineEnd) {
        this.endLine(token);
        continue;
      }
      if (type === Comment) {
        this.comment(token);
        continue;
      }
      if (this.onLine === 0 && this.missing > 0 && this.frames.length > 1) this.closeByIndent(token);
      if (type === OpenBrace) {
        if (this.depth() > DEEPEST) return this.tooDeep(token);
        this.open(token);
        i += this.quietMusic(tokens, i + 1);
      } else if (type === CloseBrace) {
        this.close(token);
      } else {
        if (type === OpenBracket) {
          if (this.depth() > DEEPEST) return this.tooDeep(token);
          this.brackets++;
        } else if (type === CloseBracket) {
          if (this.brackets > 0) this.brackets--;
        } else if (type === OpenName || type === BracedName) {
          this.badName(token);
        } else if (type === OtherSign && token.image === "#") {
          // Laid out anew it might find itself before a space, and swallow the rest of its line.
          this.guessed = true;
        }
        this.add(tokens, i, i + 1);
      }
      this.onLine++;
      this.previous = token;
    }
    while (this.frames.length > 1) this.closeMissing();
    this.reportMissing();
    this.finishLine();
    return {
      tokens: this.at.tokens,
      lines: this.at.lines,
      closing: closingComments(this.at),
      problems: this.problems,
      guessed: this.guessed,
    };
  }

  private depth(): number {
    return this.frames.length - 1 + this.brackets;
  }

  private tooDeep(token: IToken): Outline {
    const problem: Problem = {
      code: "too-deep",
      span: { start: token.startOffset, end: endOf(token) },
      message: `This bracket stands inside more than ${DEEPEST} others. Nothing here needs that many: take some away.`,
      mend: undefined,
    };
    return { tokens: [], lines: [], closing: [], problems: [problem], guessed: true };
  }

  private endLine(token: IToken): void {
    const { at } = this;
    if (at.music !== undefined) at.music.push(token);
    else if (this.onLine === 0) {
      if (at.pending.at(-1) !== "") at.pending.push("");
    } else this.finishLine();
    this.onLine = 0;
  }

  private finishLine(): void {
    this.at.current = undefined;
  }

  private line(): Line {
    const { at } = this;
    if (at.current !== undefined) return at.current;
    if (at.tokens.length > 0) at.tokens.push(LINE_END);
    const { before, blank } = takePending(at);
    const { length } = at.tokens;
    const line: Line = { from: length, to: length, before, blank, after: undefined };
    at.lines.push(line);
    at.current = line;
    return line;
  }

  /** Puts a run of tokens onto the present line, or into the present music. */
  private add(tokens: readonly IToken[], from: number, to: number): void {
    const { at } = this;
    const line = at.music === undefined ? this.line() : undefined;
    const there = at.music ?? at.tokens;
    for (let i = from; i < to; i++) there.push(tokens[i]!);
    if (line !== undefined) line.to = there.length;
  }

  /** Takes over all of the music that was just opened where nothing in it concerns the outline; returns how much. */
  private quietMusic(tokens: readonly IToken[], from: number): number {
    const { block } = this.at;
    if (block?.music?.length !== 0 || this.missing > 0) return 0;
    let end = from;
    let meant = true;
    while (end < tokens.length && (tokens[end]!.tokenType === LineEnd || !isTelling(tokens[end]!))) {
      if (!meansInMusic(tokens[end]!)) meant = false;
      end++;
    }
    if (tokens[end]?.tokenType !== CloseBrace) return 0;
    block.meant = meant;
    this.at.music = tokens.slice(from, end);
    block.music = this.at.music;
    return end - from;
  }

  private comment(token: IToken): void {
    const { at } = this;
    const words = token.image.trimEnd();
    if (at.music !== undefined) {
      at.music.push(token);
      this.onLine++;
      return;
    }
    if (this.onLine === 0) {
      at.pending.push(words);
      // The line end that follows must not count as a blank line.
      this.onLine++;
      return;
    }
    // After `{` the comment belongs to the line that the brace stands on, which is the line around this frame.
    const around = at.current === undefined ? this.frames.at(-2) : at;
    const line = around?.current;
    if (line === undefined) {
      at.pending.push(words);
    } else if (line.after === undefined) {
      line.after = words;
    } else {
      const folded = around?.tokens[line.to - 1]?.payload as FoldedBlock | undefined;
      if (folded !== undefined && folded.music === undefined) folded.closing.push(words);
      else at.pending.push(words);
    }
  }

  private open(token: IToken): void {
    const { at } = this;
    // A brace on a line of its own belongs to the line above.
    const last = at.lines.at(-1);
    if (
      at.current === undefined &&
      this.onLine === 0 &&
      at.music === undefined &&
      last !== undefined &&
      at.tokens.at(-1)?.tokenType !== BlockToken &&
      at.pending.length === 0
    ) {
      at.current = last;
    }
    const line = at.music === undefined ? this.line() : undefined;
    const holder = at.music ?? at.tokens;
    const first = holder[line?.from ?? 0] ?? token;
    const next = frame(token, indentAt(this.text, first.startOffset), first.startOffset);
    if (line !== undefined && opensMusic(holder, line.from)) next.music = [];
    const { startOffset } = token;
    const span = spanOf(startOffset, startOffset + 1);
    const { tokens, lines, music, pending } = next;
    next.block = {
      tokens,
      lines,
      music,
      meant: false,
      span,
      inline: true,
      closing: pending,
      node: undefined,
      musicNode: undefined,
    };
    next.token = madeToken(BlockToken, "", startOffset, startOffset + 1, next.block);
    holder.push(next.token);
    if (line !== undefined) line.to = holder.length;
    this.frames.push(next);
    this.at = next;
  }

  private close(token: IToken): void {
    if (this.frames.length === 1) {
      this.guessed = true;
      this.problems.push({
        code: "unreadable",
        span: { start: token.startOffset, end: endOf(token) },
        message: "This `}` closes nothing: there is no `{` that belongs to it. Take it away.",
        mend: { title: "Take the `}` away", text: "" },
      });
      return;
    }
    this.finish(endOf(token));
  }

  /** Folds the innermost open block, which ends at `end`. */
  private finish(end: number): void {
    const done = this.frames.pop()!;
    this.at = this.frames.at(-1)!;
    const block = done.block!;
    const start = done.open!.startOffset;
    block.span = spanOf(start, end);
    block.inline = isOneLine(this.text, start, end);
    block.closing = closingComments(done);
    done.token!.endOffset = end;
    if (done.music !== undefined) this.brackets = 0;
  }

  /** A line that stands no further in than the line its block opens on says that a `}` is missing above. */
  private closeByIndent(token: IToken): void {
    const indent = indentAt(this.text, token.startOffset);
    const first = this.at.lines.length === 0 && (this.at.music === undefined || this.at.music.length <= 1);
    if (first && this.at.flat && indent === 0 && token.tokenType !== CloseBrace) return;
    while (this.missing > 0 && this.frames.length > 1) {
      const { at } = this;
      const outside = token.tokenType === CloseBrace ? indent < at.indent : indent <= at.indent;
      if (!outside || (at.flat && at.lines.length > 0 && indent === 0)) return;
      this.closeMissing();
    }
  }

  private closeMissing(): void {
    const { at } = this;
    this.missing--;
    this.guessed = true;
    const last = this.previous ?? at.open!;
    const oneLine = isOneLine(this.text, at.open!.startOffset, endOf(last));
    const brace = oneLine && at.open !== last ? " }" : `\n${" ".repeat(at.indent)}}`;
    if (this.missingAt === undefined) {
      const header = this.text.slice(at.header, at.open!.startOffset).trim();
      this.missingAt = { last, braces: brace, header };
    } else if (this.missingAt.last === last) {
      this.missingAt.braces += brace;
    }
    this.finish(endOf(last));
  }

  private reportMissing(): void {
    if (this.missingAt === undefined) return;
    const { last, braces, header } = this.missingAt;
    const several = braces.split("}").length > 2;
    const whose = header === "" ? "the block above" : `\`${shorten(header)} {\``;
    this.problems.push({
      code: "unreadable",
      span: { start: last.startOffset, end: endOf(last) },
      message: several
        ? `The \`}\` signs are missing after this: ${whose} and what stands around it are never closed.`
        : `A \`}\` is missing after this: ${whose} is never closed.`,
      mend: {
        title: "Close it here",
        text: this.text.slice(last.startOffset, endOf(last)) + braces,
      },
    });
  }

  private badName(token: IToken): void {
    this.guessed = true;
    const span = { start: token.startOffset, end: endOf(token) };
    if (token.tokenType === OpenName) {
      this.problems.push({
        code: "unreadable",
        span,
        message: 'This name is never closed: a `"` is missing at its end, on the same line.',
        mend: { title: 'Close it with `"`', text: `${token.image}"` },
      });
    } else {
      this.problems.push({
        code: "unreadable",
        span,
        message: "A name holds no braces: `{` and `}` stand only around blocks.",
        mend: { title: "Write round brackets", text: token.image.replace(/\{/g, "(").replace(/\}/g, ")") },
      });
    }
  }
}

/** Whether the line up to its brace, from this token on, is `music`, `partials` or `degrees from …`. */
function opensMusic(tokens: readonly IToken[], from: number): boolean {
  for (let i = tokens.length - 1; i >= from; i--) {
    const type = tokens[i]!.tokenType;
    if (type === BlockToken) return false;
    if (type === K.music || type === K.partials || type === K.degrees) return true;
  }
  return false;
}

/** A header cut to a length that fits in a sentence. */
function shorten(header: string): string {
  const line = header.replace(/\s+/g, " ");
  return line.length > 40 ? `${line.slice(0, 39).trimEnd()}…` : line;
}

/** What a statement alone on its line has around it. */
export function triviaOf(line: Line): Trivia {
  return line.before.length === 0 && !line.blank && line.after === undefined
    ? BARE
    : { before: line.before, after: line.after, blank: line.blank };
}

/** Nothing around. */
export const BARE: Trivia = { before: [], after: undefined, blank: false };
