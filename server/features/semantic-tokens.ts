import type { Range, SemanticTokens, SemanticTokensLegend } from "vscode-languageserver-types";
import type { Piece } from "../../grammar/piece";
import type { Span } from "../../grammar/span";
import type { NamedThing } from "../plan/trouble";
import type { Checked, CheckedFile } from "../workspace/check-sources";
import { fileOf, offsetOf, positionOf } from "./lines-of";
import { insideQuotes, mentionsOf, thingOf } from "./names";
import { type Held, partsOf } from "./tree-at";

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
  let line = 0;
  let character = 0;
  for (const [i, piece] of file.tree.pieces.entries()) {
    const start = file.tree.starts[i] ?? 0;
    if (start + piece.text.length < from) continue;
    if (start > to) break;
    for (const { span, type, modifiers } of tokensOf(file, piece, start)) {
      const at = positionOf(file, start + span.start);
      const sameLine = at.line === line;
      data.push(at.line - line, sameLine ? at.character - character : at.character);
      data.push(span.end - span.start, type, modifiers);
      ({ line, character } = at);
    }
  }
  return data;
}

function tokensOf(file: CheckedFile, piece: Piece, start: number): readonly Token[] {
  const names = mentionsOf(piece).flatMap((mention): Token[] => {
    const span = insideQuotes(piece.text, mention.span);
    if (span.end <= span.start || thingOf({ file, piece, start, mention }) === undefined) return [];
    return [{ span, type: NAME_TYPES[mention.kind], modifiers: mention.declares ? DECLARATION : 0 }];
  });
  return [...names, ...fixedTokens(piece)].sort((a, b) => a.span.start - b.span.start);
}

const fixed = new WeakMap<Piece, readonly Token[]>();

/** The tokens that depend on nothing but the piece itself. */
function fixedTokens(piece: Piece): readonly Token[] {
  const known = fixed.get(piece);
  if (known !== undefined) return known;
  const tokens: Token[] = [];
  if (piece.declaration !== undefined) {
    collect({ as: "declaration", node: piece.declaration }, piece.text, tokens);
  }
  fixed.set(piece, tokens);
  return tokens;
}

function collect(held: Held, text: string, tokens: Token[]): void {
  const { span } = held.node;
  const push = (type: number, at: Span): void => void tokens.push({ span: at, type, modifiers: 0 });
  switch (held.as) {
    case "leaf":
      if ("tonic" in held.node) push(KEY, { start: span.start, end: span.start + tonicLength(text, span) });
      else if ("parts" in held.node) for (const unit of unitsIn(text, span)) push(UNIT, unit);
      else if (isPitch(text, span)) push(NOTE, span);
      break;
    case "clause":
      // A pitch is a leaf of its own; degrees and partials are not.
      if (held.node.kind === "degree" || held.node.kind === "partial") push(NOTE, span);
      break;
    case "statement":
      if (held.node.kind === "let" || held.node.kind === "finding") push(CODE, held.node.code.span);
      else if (held.node.kind === "instrument") push(CODE, held.node.words.span);
      else if (held.node.kind === "activity" && !held.node.quoted) push(CODE, held.node.activity.span);
      break;
    case "declaration":
    case "block":
      break;
  }
  for (const part of partsOf(held.node)) collect(part, text, tokens);
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
