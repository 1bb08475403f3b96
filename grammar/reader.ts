import { EOF, type IToken } from "chevrotain";
import { explainFault, explainOutside, explainStart, oddLetter } from "./explain";
import { musicProblems } from "./explain-music";
import type { Fault } from "./leaves";
import {
  BARE,
  blockNode,
  type FoldedBlock,
  type Line,
  type Lines,
  type Mutable,
  musicNode,
  outline,
  triviaOf,
} from "./outline";
import type { Piece, Problem } from "./piece";
import { type ReadNode, runRule, runRuleOver } from "./run-rule";
import { type BlockKind, parser, STATEMENTS, type Statement } from "./statements";
import { BlockToken, BracedName, Comment, endOf, lex, OpenName, QuotedName, withOddTokens } from "./tokens";
import type { Declaration, MusicElement, MusicField, Trivia, Unread } from "./tree";

/** Letters that cannot be seen and have no business in a plan. */
const UNSEEN = new RegExp(
  `[${[
    "0000-0008",
    "000b",
    "000c",
    "000e-001f",
    "007f-009f",
    "200b",
    "200e",
    "200f",
    "202a-202e",
    "2066-2069",
  ]
    .map((range) => range.replace(/\w{4}/g, "\\u$&"))
    .join("")}]`,
);

/** Reads one piece of a file. Never throws, whatever the text. */
export function readPiece(text: string): Piece {
  const tokens = lex(text);
  const outlined = outline(text, tokens);
  const { lines, closing, problems, guessed } = outlined;
  const reader = new Reader(text, problems);
  const declaration = reader.declaration(outlined);
  if (UNSEEN.test(text)) unseenProblems(tokens, problems);
  if (problems.length > 1) problems.sort((a, b) => a.span.start - b.span.start);
  return {
    text,
    declaration,
    comments: closing,
    problems,
    verbatim: guessed || reader.lost || (declaration === undefined && lines.length > 0),
  };
}

class Reader {
  /** Whether something that was written is not in the tree. */
  lost = false;

  constructor(
    private readonly text: string,
    private readonly problems: Problem[],
  ) {}

  declaration({ tokens, lines }: Lines): Declaration | undefined {
    const [header, outside] = lines;
    if (header === undefined) return undefined;
    const items: ReadNode[] = [];
    this.readLine(header, tokens.slice(header.from, header.to), "file", items);
    const read = items[0];
    const declaration = read === undefined || read.kind === "unread" ? undefined : read;
    // Of text that is no declaration, the first line alone is told about.
    if (outside !== undefined) {
      this.lost = true;
      if (declaration !== undefined) {
        this.problems.push(explainOutside(this.text, tokens.slice(outside.from, outside.to)));
      }
    }
    return declaration as Declaration | undefined;
  }

  /** Reads the lines of a block: all in one go up to the first mistake, and each by itself from there on. */
  private readLines({ tokens, lines }: Lines, kind: BlockKind, items: ReadNode[]): void {
    const sound = this.readSoundLines(tokens, lines, kind, items);
    for (let i = sound; i < lines.length; i++) {
      const line = lines[i]!;
      this.readLine(line, tokens.slice(line.from, line.to), kind, items);
    }
  }

  /** Reads lines as far as nothing is wrong with them, and what their braces hold; returns how many that were. */
  private readSoundLines(
    tokens: IToken[],
    lines: readonly Line[],
    kind: BlockKind,
    items: ReadNode[],
  ): number {
    const holders: Holder[] = [];
    parser.input = tokens;
    let sound = 0;
    for (const line of lines) {
      const [before, held] = [items.length, holders.length];
      if (!this.readSoundLine(tokens, line, kind, items, holders)) {
        items.length = before;
        holders.length = held;
        break;
      }
      sound++;
    }
    // The parser reads one list of tokens at a time, so what is inside waits until the lines around it are read.
    for (const { node, statement, folded } of holders) this.readBlock(folded, node, statement);
    return sound;
  }

  private readSoundLine(
    tokens: readonly IToken[],
    line: Line,
    kind: BlockKind,
    items: ReadNode[],
    holders: Holder[],
  ): boolean {
    let trivia = statementTrivia(line);
    let at = line.from;
    while (at < line.to) {
      const statement = STATEMENTS[kind].get(tokens[at]!.tokenTypeIdx);
      if (statement === undefined) return false;
      const { node, fault } = runRule(statement, trivia);
      if (fault !== undefined || node === undefined) return false;
      const next = parser.next();
      const end = next === tokens[line.to] || next.tokenType === EOF ? line.to : tokens.indexOf(next, at);
      for (let i = at; i < end; i++) {
        const token = tokens[i]!;
        if (token.tokenType !== BlockToken) continue;
        holders.push({ node, statement, folded: token.payload as FoldedBlock });
      }
      items.push(node);
      trivia = BARE;
      at = end;
    }
    parser.skip();
    hangAfter(line, items);
    return true;
  }

  private readLine(line: Line, tokens: IToken[], kind: BlockKind, items: ReadNode[]): void {
    const count = tokens.length;
    let trivia = statementTrivia(line);
    let at = 0;
    while (at < count) {
      at = this.readStatement(at === 0 ? tokens : tokens.slice(at), at, tokens, trivia, kind, items);
      trivia = BARE;
    }
    hangAfter(line, items);
  }

  /** Reads the statement that begins at `from` of the line; returns where the next one begins. */
  private readStatement(
    run: IToken[],
    from: number,
    line: readonly IToken[],
    trivia: Trivia,
    kind: BlockKind,
    items: ReadNode[],
  ): number {
    const first = run[0]!;
    const statement = STATEMENTS[kind].get(first.tokenTypeIdx);
    if (statement === undefined) {
      this.problems.push(explainStart(this.text, kind, run));
      return this.unread(run, from, 1, line, trivia, kind, items);
    }
    const read = runRuleOver(statement, run, trivia);
    let fault = read.fault;
    if (fault === undefined && read.consumed < run.length) {
      const rest = run[read.consumed]!;
      if (kind === "file" || !STATEMENTS[kind].has(rest.tokenTypeIdx)) {
        fault = { token: rest, expected: [], message: undefined, mend: undefined };
      }
    }
    if (fault === undefined && read.node !== undefined) {
      items.push(read.node);
      this.readBlocks(run, read.consumed, read.node, statement);
      return from + read.consumed;
    }
    if (fault !== undefined) {
      const { node, consumed } = read;
      this.problems.push(explainFault(this.text, kind, statement, run, fault));
      if (node !== undefined && read.fault === undefined && run[consumed - 1]?.tokenType === BlockToken) {
        // All was read up to the closing brace; only what stands behind it is wrong.
        this.lost = true;
        items.push(node);
        this.readBlocks(run, consumed, node, statement);
        return line.length;
      }
      const salvaged = this.salvage(statement, run, fault, trivia);
      if (salvaged !== undefined) {
        this.lost = true;
        items.push(salvaged);
        return line.length;
      }
    }
    const reached = fault === undefined ? 1 : Math.max(1, indexOfToken(run, fault.token));
    return this.unread(run, from, reached, line, trivia, kind, items);
  }

  /**
   * What carries a block is worth keeping when its first line is wrong: the exercise under a misspelt `like`
   * is still that exercise. The line is read once more without what stands between the mistake and the brace.
   */
  private salvage(
    statement: Statement,
    run: readonly IToken[],
    fault: Fault,
    trivia: Trivia,
  ): ReadNode | undefined {
    if (statement.block === undefined || run.at(-1)?.tokenType !== BlockToken) return undefined;
    for (let end = indexOfToken(run, fault.token); end > 0; end--) {
      const shorter = [...run.slice(0, end), run.at(-1)!];
      if (shorter.length >= run.length) continue;
      const read = runRuleOver(statement, shorter, trivia);
      if (read.fault !== undefined || read.node === undefined || read.consumed < shorter.length) continue;
      this.readBlocks(shorter, shorter.length, read.node, statement);
      return read.node;
    }
    return undefined;
  }

  private readBlocks(run: readonly IToken[], end: number, node: ReadNode, statement: Statement): void {
    for (let i = 0; i < end; i++) {
      const token = run[i]!;
      if (token.tokenType === BlockToken) this.readBlock(token.payload as FoldedBlock, node, statement);
    }
  }

  /** Reads what stands between the braces of a statement. */
  private readBlock(folded: FoldedBlock, node: ReadNode, statement: Statement): void {
    if (node.kind === "music") {
      this.readMusic(folded, node as unknown as MusicField);
    } else if (statement.block !== undefined) {
      this.readLines(folded, statement.block, blockNode(folded).items as ReadNode[]);
    }
  }

  private unread(
    run: readonly IToken[],
    from: number,
    reached: number,
    line: readonly IToken[],
    trivia: Trivia,
    kind: BlockKind,
    items: ReadNode[],
  ): number {
    let end = run.length;
    if (kind === "budget" || kind === "asks") {
      // In these short blocks no statement holds a word that begins another one.
      const next = run.findIndex((token, i) => i >= reached && STATEMENTS[kind].has(token.tokenTypeIdx));
      if (next > 0) end = next;
    }
    const span = { start: run[0]!.startOffset, end: endOf(run[end - 1]!) };
    const unread: Unread = { span, trivia, kind: "unread", text: this.text.slice(span.start, span.end) };
    items.push(unread as Mutable<Unread>);
    return Math.min(from + end, line.length);
  }

  private readMusic(folded: FoldedBlock, field: MusicField): void {
    const tokens = folded.music;
    if (tokens === undefined) return;
    parser.begin(field.by, this.text);
    parser.input = folded.meant ? tokens : withOddTokens(tokens);
    const elements = parser.elements();
    musicNode(folded).elements = folded.inline ? elements : tidyLines(elements);
    if (parser.odd.length === 0) return;
    for (const problem of musicProblems(this.text, parser.odd, field.by)) this.problems.push(problem);
  }
}

/** A statement with braces, whose inside is still to be read. */
interface Holder {
  readonly node: ReadNode;
  readonly statement: Statement;
  readonly folded: FoldedBlock;
}

/** What surrounds the first statement of a line: the comment at its end belongs to the last one. */
function statementTrivia(line: Line): Trivia {
  return triviaOf(line.after === undefined ? line : { ...line, after: undefined });
}

/** Hangs the comment at the end of a line on its last statement. */
function hangAfter({ after }: Line, items: readonly ReadNode[]): void {
  const last = items.at(-1);
  if (after !== undefined && last !== undefined) last.trivia = { ...last.trivia, after };
}

/** Where the fault lies in the run; its end where the line ended too soon. */
function indexOfToken(run: readonly IToken[], token: IToken): number {
  const at = run.indexOf(token);
  return at < 0 ? run.length : at;
}

/**
 * Leaves at most one blank line, and none at either end. A comment keeps the line end that closes it. The list is
 * tidied where it stands: most music begins and ends with a line end, and a copy for those would be a waste.
 */
function tidyLines(elements: MusicElement[]): MusicElement[] {
  let kept = 0;
  let lines = 2;
  for (const element of elements) {
    if (element.kind === "line") {
      lines++;
      if (lines > 2) continue;
    } else lines = 0;
    elements[kept++] = element;
  }
  while (kept > 0 && elements[kept - 1]?.kind === "line" && elements[kept - 2]?.kind !== "comment") kept--;
  elements.length = kept;
  return elements;
}

/** Tells about unseen letters in names and comments; elsewhere they spoil a statement and are told about there. */
function unseenProblems(tokens: readonly IToken[], problems: Problem[]): void {
  for (const token of tokens) {
    const type = token.tokenType;
    if (type !== QuotedName && type !== OpenName && type !== BracedName && type !== Comment) continue;
    const at = token.image.search(UNSEEN);
    if (at < 0) continue;
    const start = token.startOffset + at;
    problems.push(oddLetter(token.image.charAt(at), { start, end: start + 1 }));
  }
}
