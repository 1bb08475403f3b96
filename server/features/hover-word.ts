import type { IToken } from "chevrotain";
import type { Span } from "../../grammar/span";
import { Comment, endOf, isWord, lex, WORD_TOKENS } from "../../grammar/tokens";
import { WORDS, type WordEntry } from "../../grammar/words";
import { infoOf } from "../rules/catalogue";
import { meaningThere } from "./completion-words";
import type { ShownText } from "./shown-text";

/** A word or phrase of the language on a line, with its meaning. */
export interface WordAt {
  readonly entry: WordEntry;
  /** Counted from the start of the line. */
  readonly span: Span;
}

/** The word of the language at a column of a line; of a phrase all its words that stand together. */
export function wordAt(line: string, column: number): WordAt | undefined {
  const tokens = lex(line);
  const at = tokens.findIndex(
    (token) => token.startOffset <= column && column <= endOf(token) && isKeyword(token),
  );
  const token = tokens[at];
  if (token === undefined) return undefined;
  for (const { words, entry } of PHRASES) {
    const place = words.indexOf(token.image);
    const from = at - place;
    if (place < 0 || from < 0 || !words.every((word, i) => tokens[from + i]?.image === word)) continue;
    const last = tokens[from + words.length - 1] ?? token;
    return { entry, span: { start: tokens[from]?.startOffset ?? 0, end: endOf(last) } };
  }
  const entry = WORDS.find(({ phrase }) => phrase.split(" ").includes(token.image));
  return entry === undefined ? undefined : { entry, span: { start: token.startOffset, end: endOf(token) } };
}

/** The longest phrases first, so that `half step` is not taken for `half`. */
const PHRASES = WORDS.map((entry) => ({ entry, words: entry.phrase.split(" ") })).toSorted(
  (a, b) => b.words.length - a.words.length,
);

function isKeyword(token: IToken): boolean {
  return token.tokenType !== Comment && isWord(token) && WORD_TOKENS.has(token.image);
}

/** The meaning of a word; on an assignment's line the one it has there. */
export function wordText({ entry }: WordAt, onAssignment: boolean): ShownText {
  const meaning = onAssignment ? meaningThere(entry.phrase, "on an assignment") : entry.meaning;
  return { heading: entry.phrase, lines: [meaning ?? entry.meaning] };
}

/** A finding's code: what it is about, why it matters, what is usually done. */
export function codeText(code: string): readonly ShownText[] {
  const info = infoOf(code);
  return info === undefined
    ? []
    : [{ heading: `${code}: ${info.title}`, lines: [info.reason, info.mend, `usually: ${info.severity}`] }];
}
