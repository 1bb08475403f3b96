import type { Range, SemanticTokens, SemanticTokensLegend } from "vscode-languageserver-types";
import { LineIndex } from "../../grammar/line-index";
import { Memory } from "../../grammar/memory";
import type { Piece } from "../../grammar/piece";
import type { Span } from "../../grammar/span";
import type { NamedThing } from "../plan/trouble";
import type { Checked, CheckedFile } from "../workspace/check-sources";
import { BYTE_ORDER_MARK, fileOf, linesOf, offsetOf } from "./lines-of";
import { insideQuotes, mentionsOf, thingNamed } from "./names";
import { everyNode } from "./tree-at";

/**
 * What an editor cannot colour from the letters alone: whose name a name is, and whether anybody bears it; a
 * letter that is a key and not a word; the notes of music; units; codes and instruments that look like words of
 * the language. A name that nobody bears stays unmarked and looks like any other text.
 */

const TYPES = [
  "namespace",
  "function",
  "method",
  "class",
  "type",
  "enumMember",
  "variable",
  "keyword",
  "property",
];
const MODIFIERS = ["declaration"];

/** The kinds of tokens and their modifiers, by the numbers they are sent as. */
export const SEMANTIC_TOKENS_LEGEND: SemanticTokensLegend = {
  tokenTypes: TYPES,
  tokenModifiers: MODIFIERS,
};

const NAME_TYPES: Readonly<Record<NamedThing, number>> = {
  area: TYPES.indexOf("namespace"),
  exercise: TYPES.indexOf("function"),
  routine: TYPES.indexOf("method"),
  player: TYPES.indexOf("class"),
  term: TYPES.indexOf("type"),
  studio: TYPES.indexOf("type"),
};
const KEY = TYPES.indexOf("enumMember");
const NOTE = TYPES.indexOf("variable");
const UNIT = TYPES.indexOf("keyword");
const CODE = TYPES.indexOf("property");
const DECLARATION = 1 << MODIFIERS.indexOf("declaration");

/** A token, counted from the start of its piece. */
interface Token {
  readonly span: Span;
  readonly type: number;
  readonly modifiers: number;
}

/** The tokens of a whole file. */
export function semanticTokens(checked: Checked, path: string): SemanticTokens {
  const file = fileOf(checked, path);
  return { data: file === undefined ? [] : encoded(file, 0, file.text.length) };
}

/** The tokens of the declarations that a range touches. */
export function semanticTokensInRange(checked: Checked, path: string, range: Range): SemanticTokens {
  const file = fileOf(checked, path);
  if (file === undefined) return { data: [] };
  return { data: encoded(file, offsetOf(file, range.start), offsetOf(file, range.end)) };
}

/** Five numbers for each token: lines and columns since the last one, length, type, modifiers. */
function encoded(file: CheckedFile, from: number, to: number): number[] {
  const data: number[] = [];
  /** The line of the last token. */
  let line = 0;
  for (const [i, piece] of file.tree.pieces.entries()) {
    const start = file.tree.starts[i] ?? 0;
    if (start + piece.text.length < from) continue;
    if (start > to) break;
    const { numbers, lastLine } = sheetOf(file, piece);
    if (numbers.length === 0) continue;
    const top = linesOf(file).position(start).line;
    const first = data.length;
    for (const number of numbers) data.push(number);
    // The first token of a piece is counted from the last of the piece before; pieces begin on lines of their own.
    data[first] = top + (numbers[0] ?? 0) - line;
    line = top + lastLine;
  }
  return data;
}

/** The tokens of a piece as they are sent, the first one counted from the start of the piece. */
interface Sheet {
  /** Which of its names are borne by somebody, in order: the only thing that depends on other pieces. */
  readonly borne: string;
  readonly numbers: readonly number[];
  readonly lastLine: number;
}

const sheets = new Memory<Piece, Sheet>();

function sheetOf(file: CheckedFile, piece: Piece): Sheet {
  const mentions = mentionsOf(piece);
  let borne = "";
  for (const mention of mentions) {
    const known = mention.declares || thingNamed(file, mention.kind, mention.text) !== undefined;
    borne += known ? "1" : "0";
  }
  const before = sheets.get(piece);
  if (before?.borne === borne) return before;
  const names = mentions.flatMap(({ kind, span, declares }, i): Token[] => {
    const inside = insideQuotes(piece.text, span);
    if (borne.charAt(i) === "0" || inside.end <= inside.start) return [];
    return [{ span: inside, type: NAME_TYPES[kind], modifiers: declares ? DECLARATION : 0 }];
  });
  const sheet = { borne, ...written(piece, [...names, ...fixedTokens(piece)]) };
  sheets.set(piece, sheet);
  return sheet;
}

function written(piece: Piece, tokens: Token[]): Pick<Sheet, "numbers" | "lastLine"> {
  tokens.sort((a, b) => a.span.start - b.span.start);
  const lines = new LineIndex(piece.text);
  const mark = piece.text.charCodeAt(0) === BYTE_ORDER_MARK ? 1 : 0;
  const numbers: number[] = [];
  let line = 0;
  let column = 0;
  for (const { span, type, modifiers } of tokens) {
    const at = lines.position(span.start);
    // An editor shows no byte order mark.
    const own = at.line === 0 ? at.column - mark : at.column;
    numbers.push(at.line - line, at.line === line ? own - column : own);
    numbers.push(span.end - span.start, type, modifiers);
    line = at.line;
    column = own;
  }
  return { numbers, lastLine: line };
}

/** How the notes of music may be written. */
const NOTES: ReadonlySet<string> = new Set(["pitch", "degree", "partial"]);

/** The tokens that depend on nothing but the piece itself. */
function fixedTokens({ declaration, text }: Piece): readonly Token[] {
  const tokens: Token[] = [];
  if (declaration === undefined) return tokens;
  const push = (type: number, span: Span): void => void tokens.push({ span, type, modifiers: 0 });
  everyNode(declaration, (held) => {
    const { span } = held.node;
    switch (held.as) {
      case "leaf":
        if ("tonic" in held.node) push(KEY, { start: span.start, end: span.start + tonicLength(text, span) });
        else if ("parts" in held.node) for (const unit of unitsIn(text, span)) push(UNIT, unit);
        else if (isPitch(text, span)) push(NOTE, span);
        return;
      case "clause":
        if (NOTES.has(held.node.kind)) push(NOTE, span);
        return;
      case "statement":
        if (held.node.kind === "let" || held.node.kind === "finding") push(CODE, held.node.code.span);
        else if (held.node.kind === "instrument") push(CODE, held.node.words.span);
        else if (held.node.kind === "activity" && !held.node.quoted) push(CODE, held.node.activity.span);
        return;
      case "declaration":
      case "block":
        return;
    }
  });
  return tokens;
}

function tonicLength(text: string, span: Span): number {
  return /^[A-G][#b♯♭]*/.exec(text.slice(span.start, span.end))?.[0].length ?? 0;
}

function isPitch(text: string, { start, end }: Span): boolean {
  return /^[A-G][#b♯♭]*\d+$/.test(text.slice(start, end));
}

function unitsIn(text: string, { start, end }: Span): readonly Span[] {
  return [...text.slice(start, end).matchAll(/[a-z]+/g)]
    .filter(([word]) => word === "h" || word === "min" || word === "s")
    .map(({ index, 0: word }) => ({ start: start + index, end: start + index + word.length }));
}
