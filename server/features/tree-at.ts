import type { Piece, SourceTree } from "../../grammar/piece";
import type { AnyStatement } from "../../grammar/print";
import type { Span } from "../../grammar/span";
import type {
  ArticulationText,
  Block,
  Clause,
  Days,
  Declaration,
  Music,
  MusicElement,
  RecordEntry,
  RestText,
} from "../../grammar/tree";

/**
 * What stands at an offset: the piece of the file, and the nodes of its tree that hold the offset, one inside
 * the other. Read from the spans alone, so that it holds for whatever the language gains.
 */

/** Every statement that may stand in a block. */
export type BlockItem = Exclude<AnyStatement, Declaration>;

/** What a statement is made of and what has a kind of its own, down to the single notes of music. */
export type StatementPart = Clause | RecordEntry | MusicElement | Days | ArticulationText | RestText;

/** A name, a word, a number, a key, a value, a date, or a few of them. */
export interface Leaf {
  readonly span: Span;
  readonly text?: string;
}

/** A node with what it is. */
export type Held =
  | { readonly as: "declaration"; readonly node: Declaration }
  | { readonly as: "block"; readonly node: Block<BlockItem> | Music }
  | { readonly as: "statement"; readonly node: BlockItem }
  | { readonly as: "clause"; readonly node: StatementPart }
  | { readonly as: "leaf"; readonly node: Leaf };

/** A piece and where it begins in the text of its file. */
export interface PieceAt {
  readonly piece: Piece;
  readonly start: number;
}

/** The piece that holds an offset of the file; where two meet, the one that begins there. */
export function pieceAt(tree: SourceTree, offset: number): PieceAt | undefined {
  const { pieces, starts } = tree;
  let low = 0;
  let high = starts.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (starts[middle]! <= offset) low = middle;
    else high = middle - 1;
  }
  const piece = pieces[low];
  return piece === undefined ? undefined : { piece, start: starts[low] ?? 0 };
}

/**
 * The nodes of a piece that hold an offset, counted from the start of the piece, from the declaration inwards.
 * An offset at the end of a node is in it, unless the next one begins there. Empty outside of the declaration.
 */
export function chainAt(piece: Piece, offset: number): readonly Held[] {
  const chain: Held[] = [];
  const { declaration } = piece;
  if (declaration === undefined || !holds(declaration, offset)) return chain;
  let at: Held | undefined = { as: "declaration", node: declaration };
  while (at !== undefined) {
    chain.push(at);
    at = nearestOf(partsOf(at.node), offset);
  }
  return chain;
}

/** The nodes directly inside a node, in the order of the text. */
export function partsOf(node: object): readonly Held[] {
  const parts: Held[] = [];
  collect(node, parts);
  return parts.sort((a, b) => a.node.span.start - b.node.span.start || b.node.span.end - a.node.span.end);
}

function collect(value: object, parts: Held[]): void {
  eachPart(value, (node) => void parts.push(heldOf(node)));
}

/** A declaration and every node inside of it, from the outermost inwards. */
export function everyNode(declaration: Declaration, visit: (held: Held) => void): void {
  const walk = (held: Held): void => {
    visit(held);
    eachPart(held.node, (part) => walk(heldOf(part)));
  };
  walk({ as: "declaration", node: declaration });
}

function eachPart(value: object, visit: (node: AnyNode) => void): void {
  if (Array.isArray(value)) {
    for (const part of value) eachValue(part, visit);
    return;
  }
  for (const [key, part] of Object.entries(value)) {
    if (key !== "span" && key !== "trivia") eachValue(part, visit);
  }
}

function eachValue(part: unknown, visit: (node: AnyNode) => void): void {
  if (typeof part !== "object" || part === null) return;
  if (isNode(part)) visit(part);
  else eachPart(part, visit);
}

interface AnyNode {
  readonly span: Span;
}

function isNode(value: object): value is AnyNode {
  return "span" in value;
}

function heldOf(node: AnyNode): Held {
  if (isBlock(node)) return { as: "block", node };
  if (isStatement(node)) return { as: "statement", node };
  if (isPart(node)) return { as: "clause", node };
  return { as: "leaf", node };
}

function isBlock(node: AnyNode): node is Block<BlockItem> | Music {
  return "inline" in node;
}

function isStatement(node: AnyNode): node is BlockItem {
  return "trivia" in node;
}

function isPart(node: AnyNode): node is StatementPart {
  return "kind" in node;
}

function nearestOf(parts: readonly Held[], offset: number): Held | undefined {
  return (
    parts.find(({ node: { span } }) => span.start <= offset && offset < span.end) ??
    parts.findLast(({ node }) => holds(node, offset))
  );
}

function holds({ span }: AnyNode, offset: number): boolean {
  return span.start <= offset && offset <= span.end;
}
