import type { IToken } from "chevrotain";
import { matches, nameText } from "../../grammar/leaves";
import { Memory } from "../../grammar/memory";
import type { Piece } from "../../grammar/piece";
import type { Span } from "../../grammar/span";
import {
  CloseBrace,
  Comma,
  Comment,
  endOf,
  K,
  LineEnd,
  lex,
  OpenBrace,
  QuotedName,
} from "../../grammar/tokens";
import type {
  ChangeBlock,
  Declaration,
  Name,
  RecordLine,
  SessionItem,
  TermField,
  WeeksBlock,
} from "../../grammar/tree";
import type { NamedThing } from "../plan/trouble";
import type { Checked, CheckedFile } from "../workspace/check-sources";
import { everyNode, pieceAt } from "./tree-at";

/**
 * What a name at a place means, and everywhere it is written. A name means what the file it stands in can see:
 * the first thing of its kind and name among the files it uses, farthest first, and then in itself, just as
 * the plan reads it. So two years may each have an “Autumn”, and each record means its own.
 */

/** One place where the name of something stands. */
export interface Mention {
  readonly kind: NamedThing;
  /** The name without its quotes, in composed form. */
  readonly text: string;
  /** The name with its quotes, counted from the start of its piece. */
  readonly span: Span;
  /** Whether the thing is declared here; otherwise it is asked for. */
  readonly declares: boolean;
}

/** Something that bears a name: the place where it is declared. */
export interface Thing {
  readonly piece: Piece;
  readonly mention: Mention;
}

/** A mention in its file. */
export interface Occurrence {
  readonly file: CheckedFile;
  readonly piece: Piece;
  /** Where the piece begins in the text of the file. */
  readonly start: number;
  readonly mention: Mention;
}

const mentions = new Memory<Piece, readonly Mention[]>();

/** The names of things in a piece, in the order of the text. Also those in lines that could not be read. */
export function mentionsOf(piece: Piece): readonly Mention[] {
  const known = mentions.get(piece);
  if (known !== undefined) return known;
  const found = [...readMentions(piece.declaration)];
  if (piece.problems.length > 0) found.push(...guessedMentions(piece));
  found.sort((a, b) => a.span.start - b.span.start);
  mentions.set(piece, found);
  return found;
}

/** The name at an offset of a file, if it is that of a thing. */
export function nameAt(file: CheckedFile, offset: number): Occurrence | undefined {
  const at = pieceAt(file.tree, offset);
  if (at === undefined) return undefined;
  const { piece, start } = at;
  const mention = mentionsOf(piece).find(
    ({ span }) => start + span.start <= offset && offset <= start + span.end,
  );
  return mention === undefined ? undefined : { file, piece, start, mention };
}

/** What a name means where it stands; undefined where nothing in sight bears it. */
export function thingOf({ file, piece, mention }: Occurrence): Thing | undefined {
  return mention.declares ? { piece, mention } : thingNamed(file, mention.kind, mention.text);
}

/** The thing of this kind and name that a file can see. */
export function thingNamed(file: CheckedFile, kind: NamedThing, name: string): Thing | undefined {
  const key = keyOf(kind, name);
  for (const pieces of file.used) {
    const thing = declaredIn(pieces).get(key);
    if (thing !== undefined) return thing;
  }
  return declaredIn(file.tree.pieces).get(key);
}

/** Every place where the name of a thing is written, in all the files that mean it. */
export function occurrencesOf(checked: Checked, thing: Thing): readonly Occurrence[] {
  return checked.files.flatMap((file) => occurrencesIn(file, thing));
}

/** Every place in one file where the name of a thing is written. */
export function occurrencesIn(file: CheckedFile, thing: Thing): readonly Occurrence[] {
  const { kind, text } = thing.mention;
  const meant = thingNamed(file, kind, text)?.piece === thing.piece;
  if (!meant && !file.tree.pieces.includes(thing.piece)) return [];
  return namesIn(
    file,
    (mention, piece) =>
      mention.kind === kind && mention.text === text && (mention.declares ? piece === thing.piece : meant),
  );
}

/** The names in a file that satisfy a condition, from the top down. */
export function namesIn(
  file: CheckedFile,
  wanted: (mention: Mention, piece: Piece) => boolean,
): readonly Occurrence[] {
  const found: Occurrence[] = [];
  for (const [i, piece] of file.tree.pieces.entries()) {
    const start = file.tree.starts[i] ?? 0;
    for (const mention of mentionsOf(piece)) {
      if (wanted(mention, piece)) found.push({ file, piece, start, mention });
    }
  }
  return found;
}

/** The files that can see a thing, its own among them. */
export function filesThatSee(checked: Checked, thing: Thing): readonly CheckedFile[] {
  return checked.files.filter(({ tree, used }) =>
    [tree.pieces, ...used].some((pieces) => pieces.includes(thing.piece)),
  );
}

/** What stands between the quotes of a name, whether or not the closing one is there. */
export function insideQuotes(pieceText: string, span: Span): Span {
  const closed = span.end - span.start > 1 && /["“”»]/.test(pieceText.charAt(span.end - 1));
  return { start: Math.min(span.start + 1, span.end), end: closed ? span.end - 1 : span.end };
}

/** What a thing is called in a sentence: `level`, `exercise`. */
export function kindWord({ piece, mention }: Thing): string {
  const declared = piece.declaration?.kind;
  if (mention.kind !== "player") return mention.kind;
  return declared === "level" || declared === "student" ? declared : "level or student";
}

const declared = new Memory<readonly Piece[], ReadonlyMap<string, Thing>>();

/** What the pieces of one file declare; the first of a name holds. */
function declaredIn(pieces: readonly Piece[]): ReadonlyMap<string, Thing> {
  const known = declared.get(pieces);
  if (known !== undefined) return known;
  const things = new Map<string, Thing>();
  for (const piece of pieces) {
    for (const mention of mentionsOf(piece)) {
      if (!mention.declares) continue;
      const key = keyOf(mention.kind, mention.text);
      if (!things.has(key)) things.set(key, { piece, mention });
    }
  }
  declared.set(pieces, things);
  return things;
}

function keyOf(kind: NamedThing, name: string): string {
  return `${kind} ${name}`;
}

// ---- names in the tree --------------------------------------------------------------------------------------

function declares(kind: NamedThing, { text, span }: Name): Mention {
  return { kind, text, span, declares: true };
}

function asks(kind: NamedThing, { text, span }: Name): Mention {
  return { kind, text, span, declares: false };
}

function* readMentions(declaration: Declaration | undefined): Generator<Mention> {
  if (declaration === undefined) return;
  switch (declaration.kind) {
    case "use":
      return;
    case "studio":
      if (declaration.name !== undefined) yield declares("studio", declaration.name);
      return;
    case "area":
      yield declares("area", declaration.name);
      return;
    case "exercise":
      yield declares("exercise", declaration.name);
      if (declaration.like !== undefined) yield asks("exercise", declaration.like);
      for (const field of declaration.block?.items ?? []) {
        if (field.kind === "in") yield asks("area", field.area);
      }
      return;
    case "routine":
      yield declares("routine", declaration.name);
      yield* sessionMentions(declaration.block?.items);
      return;
    case "level":
    case "student":
      yield declares("player", declaration.name);
      if (declaration.like !== undefined) yield asks("player", declaration.like);
      return;
    case "term":
      yield declares("term", declaration.name);
      for (const player of declaration.players) yield asks("player", player);
      for (const field of declaration.block?.items ?? []) yield* termMentions(field);
      return;
    case "record":
      yield asks("term", declaration.term);
      for (const line of declaration.block?.items ?? []) {
        if (line.kind === "record line") yield* recordMentions(line);
      }
      return;
  }
}

function* termMentions(field: TermField | { readonly kind: "unread" }): Generator<Mention> {
  if (field.kind === "weeks") yield* weeksMentions(field);
  else if (field.kind === "change") yield* changeMentions(field);
}

function* weeksMentions({ block }: WeeksBlock): Generator<Mention> {
  for (const item of block?.items ?? []) {
    if (item.kind !== "session") continue;
    if (item.routine !== undefined) yield asks("routine", item.routine);
    yield* sessionMentions(item.block?.items);
  }
}

function* sessionMentions(
  items: readonly (SessionItem | { readonly kind: "unread" })[] | undefined,
): Generator<Mention> {
  for (const item of items ?? []) {
    if (item.kind === "assignment") yield asks("exercise", item.exercise);
    else if (item.kind === "short") yield* sessionMentions(item.block.items);
  }
}

function* changeMentions({ player, block }: ChangeBlock): Generator<Mention> {
  yield asks("player", player);
  for (const item of block?.items ?? []) {
    if (item.kind !== "replace" && item.kind !== "leave out") continue;
    yield asks("exercise", item.exercise);
    if (item.kind === "replace") yield asks("exercise", item.by);
  }
}

function* recordMentions({ player, entries }: RecordLine): Generator<Mention> {
  yield asks("player", player);
  for (const entry of entries) {
    if (entry.kind === "except" || entry.kind === "passed" || entry.kind === "played") {
      yield asks("exercise", entry.exercise);
    }
  }
}

// ---- names in lines that could not be read ----------------------------------------------------------------------

/**
 * While a line is being typed it cannot be read, but its names still mean something: the word in front of a
 * name says what. Only names that the tree does not hold are asked about.
 */
function guessedMentions(piece: Piece): readonly Mention[] {
  const inTree = new Set<number>();
  if (piece.declaration !== undefined) {
    everyNode(piece.declaration, ({ as, node: { span } }) => {
      if (as === "leaf" && isQuoted(piece, span)) inTree.add(span.start);
    });
  }
  const tokens = lex(piece.text);
  const opening = tokens.find(({ tokenType }) => tokenType !== LineEnd && tokenType !== Comment);
  const found: Mention[] = [];
  let before: IToken | undefined;
  /** What the names of a list are, while commas follow one another. */
  let listed: Guess | undefined;
  let depth = 0;
  let namesInLine = 0;
  for (const token of tokens) {
    const { tokenType } = token;
    if (tokenType === OpenBrace) depth++;
    else if (tokenType === CloseBrace) depth--;
    if (tokenType === LineEnd) namesInLine = 0;
    if (matches(token, QuotedName)) {
      const guess = before?.tokenType === Comma ? listed : guessOf({ before, opening, depth, namesInLine });
      listed = guess;
      namesInLine++;
      if (guess !== undefined && !inTree.has(token.startOffset)) {
        const span = { start: token.startOffset, end: endOf(token) };
        found.push({ ...guess, text: nameText(token.image), span });
      }
    } else if (tokenType !== Comma) listed = undefined;
    before = token;
  }
  return found;
}

type Guess = Pick<Mention, "kind" | "declares">;

/** What is known of a name from where it stands in a line. */
interface Surroundings {
  /** The token in front of it. */
  readonly before: IToken | undefined;
  /** The first word of the piece. */
  readonly opening: IToken | undefined;
  /** How many braces are open. */
  readonly depth: number;
  /** How many names stand before it in its line. */
  readonly namesInLine: number;
}

function guessOf({ before, opening, depth, namesInLine }: Surroundings): Guess | undefined {
  const asked = (kind: NamedThing): Guess => ({ kind, declares: false });
  const head = opening?.tokenType;
  const word = before?.tokenType;
  if (before !== undefined && before === opening) {
    if (word === K.studio) return { kind: "studio", declares: true };
    if (word === K.area) return { kind: "area", declares: true };
    if (word === K.exercise) return { kind: "exercise", declares: true };
    if (word === K.routine) return { kind: "routine", declares: true };
    if (word === K.level || word === K.student) return { kind: "player", declares: true };
    if (word === K.term) return { kind: "term", declares: true };
  }
  if (word === K.of && head === K.record) return asked("term");
  if (word === K.like) return asked(head === K.exercise ? "exercise" : "player");
  if (word === K.in && head === K.exercise) return asked("area");
  if (word === K.for && head === K.term) return asked("player");
  if (word === K.change) return asked("player");
  if (word === K.routine) return asked("routine");
  if (word === K.replace || word === K.with || word === K.out) return asked("exercise");
  if (word === K.except || word === K.passed) return asked("exercise");
  if (head === K.record && depth > 0) {
    // A line of the record begins with its week or date and the player; a name right behind is what was played.
    if (namesInLine === 0) return asked("player");
    return before !== undefined && matches(before, QuotedName) ? asked("exercise") : undefined;
  }
  // A line of a session that begins with a name asks for that exercise.
  const inSession = head === K.routine ? depth > 0 : head === K.term && depth > 2;
  return inSession && (word === LineEnd || word === OpenBrace) ? asked("exercise") : undefined;
}

function isQuoted(piece: Piece, span: Span): boolean {
  return '"“”„«'.includes(piece.text.charAt(span.start)) && span.end > span.start;
}
