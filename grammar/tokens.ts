import {
  createToken,
  type ILexingResult,
  type IToken,
  type ITokenConfig,
  Lexer,
  type TokenType,
} from "chevrotain";
import { type Keyword, WORD_GROUPS } from "./words";

/**
 * What a plan text is made of, letter by letter. There is one lexer mode. All words are lexed as `Word` and
 * looked up in a table afterwards, which is quicker than letting the lexer try each keyword in turn.
 */

/**
 * A kind of token. All but a few have the same properties in the same order, whatever they have need of: the engine
 * then finds those of nearly every token in the same places, and lexing and parsing ask for them at each step.
 */
function kindOf(config: ITokenConfig): TokenType {
  return createToken({ categories: [], label: "", ...config });
}

/** A kind that no letters are read as: a category, or what is told apart afterwards. */
const named = (name: string, ...categories: TokenType[]): TokenType =>
  kindOf({ name, pattern: Lexer.NA, categories });

/** A number or a count word. */
export const AnyCount = named("AnyCount");
/** `quarter`, `crotchet` …, and `half`, which has other uses too. */
export const AnyNoteWord = named("AnyNoteWord");
export const Unit = named("Unit");
export const InstrumentWord = named("InstrumentWord");
/** Stands for a token that means nothing inside music; its payload is that token. */
export const OddInMusic = named("OddInMusic");

/** A letter of any script, without using the unicode flag that the lexer cannot optimise. */
const LETTER =
  "A-Za-z\\u00aa\\u00b5\\u00ba\\u00c0-\\u00d6\\u00d8-\\u00f6\\u00f8-\\u02b8\\u0300-\\u1fff\\u2c00-\\u2fff\\u3040-\\ufdff\\ufe20-\\ufe6f\\uff10-\\uff9f";

/**
 * All that begins with a letter. What it is (a keyword, a note, a key, an altered degree) is seen from its
 * letters afterwards: trying five patterns on every word would cost more than the rest of lexing.
 */
export const Word = kindOf({
  name: "Word",
  pattern: new RegExp(`[A-G](?:##?|♯♯?|♭♭?)\\d*|[${LETTER}_][${LETTER}_0-9-]*`),
  categories: [InstrumentWord],
});
export const Pitch = named("Pitch");
export const Tonic = named("Tonic");

// A pattern of one plain letter is compared without a regular expression; most spaces and line ends are one.
export const LineEnd = kindOf({ name: "LineEnd", pattern: "\n" });
const OtherLineEnd = kindOf({ name: "OtherLineEnd", pattern: /\r\n?/ });
const Space = kindOf({ name: "Space", pattern: " ", group: Lexer.SKIPPED });
/** Also the spaces that word processors leave behind, and a byte order mark. */
const OtherSpace = kindOf({
  name: "OtherSpace",
  pattern: /[\t\u00a0\u1680\u2000-\u200a\u202f\u205f\u3000\ufeff]+/,
  group: Lexer.SKIPPED,
});

const isSpace = (code: number): boolean =>
  code === 32 || code === 9 || code === 0xa0 || code === 0xfeff || code === 0x202f || code === 0x3000;
/** The same, and the ends of lines, inside the brackets of a pattern. */
const APART = " \\t\\u00a0\\ufeff\\u202f\\u3000\\r\\n";
const isLineEnd = (code: number): boolean => code === 10 || code === 13;

/** Whether the `#` at this offset begins a comment: after a space or at a line's start, and before a space or another `#`. */
export function beginsComment(text: string, offset: number): boolean {
  if (offset > 0) {
    const before = text.charCodeAt(offset - 1);
    if (!isSpace(before) && !isLineEnd(before)) return false;
  }
  if (offset + 1 >= text.length) return true;
  const after = text.charCodeAt(offset + 1);
  return isSpace(after) || isLineEnd(after) || after === 35;
}

/** As `beginsComment` has it. */
export const Comment = kindOf({
  name: "Comment",
  pattern: new RegExp(`(?<![^${APART}])#(?![^${APART}#])[^\\r\\n]*`),
  start_chars_hint: ["#"],
  line_breaks: false,
});

/** A name in quotes. The curly quotes that word processors put are as good; the printer writes straight ones. */
export const QuotedName = kindOf({
  name: "QuotedName",
  pattern: /"[^"{}\r\n]*"|[“”„«][^"“”„«»{}\r\n]*[“”»]/,
});

/** The rest of a line, as far as a name can sensibly reach: endless lines of quotes must not take endless time. */
const lineRest = /[^\r\n]{0,1000}/y;
function restOfLine(text: string, offset: number): string {
  lineRest.lastIndex = offset;
  return lineRest.exec(text)?.[0] ?? "";
}

/** Two names that are wrong but can be read: one that holds braces, one that is never closed. */
export const BracedName = kindOf({
  name: "BracedName",
  pattern: (text: string, offset: number) => {
    if (text.charCodeAt(offset) !== 34) return null;
    const rest = restOfLine(text, offset);
    // An odd number of quotes on the line says that one is missing, and then the brace is a real one.
    if (rest.indexOf('"', 1) < 0 || rest.split('"').length % 2 === 0) return null;
    return /^"[^"]*"/.exec(rest);
  },
  start_chars_hint: ['"'],
  line_breaks: false,
  categories: [QuotedName],
});
const OPENING_QUOTES = '"“”„«';
export const OpenName = kindOf({
  name: "OpenName",
  pattern: (text: string, offset: number) => {
    if (!OPENING_QUOTES.includes(text.charAt(offset))) return null;
    return /^["“”„«](?:[^"“”„«»{}]*[^"“”„«»{}\s])?/.exec(restOfLine(text, offset));
  },
  start_chars_hint: [...OPENING_QUOTES],
  line_breaks: false,
  categories: [QuotedName],
});

/** All that begins with a figure, told apart afterwards like words. */
export const NumberText = kindOf({
  name: "NumberText",
  pattern: /\d+(?:\/\d+(?:\/\d+|\.*)|-\d+-\d+|:\d+|\.\d+(?:\.\d+)?|[–—‑−]\d+[–—‑−]\d+)?/,
  categories: [AnyCount],
});
export const DateText = named("DateText");
/** A date in one of the other ways people write it. */
export const OtherDate = named("OtherDate");
export const Fraction = named("Fraction");
export const Ratio = named("Ratio");
/** `b3` begins with a letter and is found among the words; `#3` and `-b7` are found here. */
export const AlteredDegree = kindOf({
  name: "AlteredDegree",
  pattern: /-(?:##?|bb?|♯♯?|♭♭?)\d+|(?:##?|♯♯?|♭♭?)\d+/,
});
export const Negative = kindOf({ name: "Negative", pattern: /-\d+/ });

export const OpenBrace = kindOf({ name: "OpenBrace", pattern: "{" });
export const CloseBrace = kindOf({ name: "CloseBrace", pattern: "}" });
export const OpenBracket = kindOf({ name: "OpenBracket", pattern: "[" });
export const CloseBracket = kindOf({ name: "CloseBracket", pattern: "]" });
export const OpenSlur = kindOf({ name: "OpenSlur", pattern: "(" });
export const CloseSlur = kindOf({ name: "CloseSlur", pattern: ")" });
export const Bar = kindOf({ name: "Bar", pattern: "|" });
export const Breath = kindOf({ name: "Breath", pattern: /['’‘ʼ]/ });
export const Comma = kindOf({ name: "Comma", pattern: "," });
export const Equals = kindOf({ name: "Equals", pattern: "=" });
export const Percent = kindOf({ name: "Percent", pattern: "%" });
export const Dash = kindOf({ name: "Dash", pattern: /[-–—‑−]/ });
/** Signs that no plan needs but hands type: they are told about in words instead of as odd letters. */
export const OtherSign = kindOf({
  name: "OtherSign",
  pattern: /[#:;.!?/\\*+<>&@$^~`´_×♯♭♮»]/,
});

/** Stands for a whole `{ … }` after the outline has folded it. Its payload is a `FoldedBlock`. */
export const BlockToken = named("BlockToken");
/** Letters that the lexer could not place at all. */
export const OddLetters = named("OddLetters");

function keywordToken(word: string): TokenType {
  const categories: TokenType[] = [];
  if (word === "half" || word === "whole") categories.push(AnyNoteWord);
  if (word === "h" || word === "min" || word === "s") categories.push(Unit);
  if (word === "horn") categories.push(InstrumentWord);
  return kindOf({ name: `Keyword-${word}`, label: `\`${word}\``, pattern: Lexer.NA, categories });
}

function groupToken(name: string): TokenType {
  if (name === "NoteWord") return named(name, AnyNoteWord);
  if (name === "CountWord") return named(name, AnyCount);
  return named(name);
}

/** The token that each word of the language is read as. */
export const WORD_TOKENS: ReadonlyMap<string, TokenType> = makeWordTokens();

function makeWordTokens(): Map<string, TokenType> {
  const tokens = new Map<string, TokenType>();
  for (const group of WORD_GROUPS) {
    if (group.token === undefined) continue;
    const token = groupToken(group.token);
    for (const [word] of group.rows) tokens.set(word, token);
  }
  for (const group of WORD_GROUPS) {
    if (group.token !== undefined) continue;
    for (const [phrase] of group.rows) {
      for (const word of phrase.split(" ")) {
        if (/^[A-Za-z]/.test(word) && !tokens.has(word)) tokens.set(word, keywordToken(word));
      }
    }
  }
  return tokens;
}

function wordToken(word: string): TokenType {
  const token = WORD_TOKENS.get(word);
  if (token === undefined) throw new Error(`${word} is missing from the table of words`);
  return token;
}

/** The keywords by their spelling. */
export const K = Object.fromEntries(WORD_TOKENS) as Readonly<Record<Keyword, TokenType>>;

export const Mode = wordToken("dorian");
export const MinorForm = wordToken("harmonic");
export const StepName = wordToken("fourth");
export const Mark = wordToken("accent");
export const Hairpin = wordToken("cresc");
export const Tonguing = wordToken("single");
export const Dynamic = wordToken("mf");
export const NoteWord = wordToken("quarter");
export const Weekday = wordToken("Mon");
export const CountWord = wordToken("one");

/** What is lexed, in the order in which it is tried. */
const lexed = (...quotes: readonly TokenType[]): TokenType[] => [
  Space,
  LineEnd,
  OtherSpace,
  OtherLineEnd,
  Comment,
  QuotedName,
  ...quotes,
  NumberText,
  Word,
  AlteredDegree,
  Negative,
  OpenBrace,
  CloseBrace,
  OpenBracket,
  CloseBracket,
  OpenSlur,
  CloseSlur,
  Bar,
  Breath,
  Comma,
  Equals,
  Percent,
  Dash,
  OtherSign,
];

/** Everything that the parser knows. */
export const VOCABULARY: readonly TokenType[] = [
  AnyCount,
  AnyNoteWord,
  Unit,
  InstrumentWord,
  OddInMusic,
  ...lexed(BracedName, OpenName),
  Pitch,
  Tonic,
  DateText,
  OtherDate,
  Fraction,
  Ratio,
  BlockToken,
  OddLetters,
  ...new Set(WORD_TOKENS.values()),
];

/** A table by the index of token types: every token of a text is looked up, and a map takes longer to ask. */
export function tableOf<T>(
  entries: Iterable<readonly [type: TokenType, what: T]>,
): readonly (T | undefined)[] {
  const indexOf = ({ tokenTypeIdx }: TokenType): number => tokenTypeIdx ?? 0;
  const table = new Array<T | undefined>(Math.max(...VOCABULARY.map(indexOf)) + 1).fill(undefined);
  for (const [type, what] of entries) table[indexOf(type)] = what;
  return table;
}

/** A table that says `true` of these. */
export function marking(types: Iterable<TokenType>): readonly (true | undefined)[] {
  return tableOf(Array.from(types, (type) => [type, true] as const));
}

function makeLexer(...quotes: readonly TokenType[]): Lexer {
  return new Lexer(lexed(...quotes), {
    ensureOptimizations: true,
    positionTracking: "onlyOffset",
    // The definitions never change at run time; a test validates them.
    skipValidations: true,
  });
}

const plainLexer = makeLexer();
let quoteLexer: Lexer | undefined;

/**
 * A quote that begins no whole name is an error to the first lexer, like a letter that is nothing at all. Where there
 * is either, the text is lexed a second time, with what tells such quotes apart; all other texts are spared the
 * functions that this takes.
 */
function tokenize(text: string): ILexingResult {
  const result = plainLexer.tokenize(text);
  if (result.errors.length === 0) return result;
  quoteLexer ??= makeLexer(BracedName, OpenName);
  return quoteLexer.tokenize(text);
}

/** Where a token ends. Lexed tokens know only their start; a folded block knows both. */
export function endOf(token: IToken): number {
  return token.endOffset === undefined ? token.startOffset + token.image.length : token.endOffset;
}

/** Makes a token that the lexer did not. `end` is exclusive. */
export function madeToken(
  type: TokenType,
  image: string,
  start: number,
  end: number,
  payload?: unknown,
): IToken {
  return {
    image,
    startOffset: start,
    endOffset: end,
    tokenTypeIdx: type.tokenTypeIdx ?? 0,
    tokenType: type,
    payload,
  };
}

/** What a word is. No word of the language looks like a note, so its letters are asked before the table. */
function wordType(image: string): TokenType {
  const first = image.charCodeAt(0);
  if (first >= 65 && first <= 71) return noteType(image) ?? WORD_TOKENS.get(image) ?? Word;
  return WORD_TOKENS.get(image) ?? (first === 98 && LOWERED.test(image) ? AlteredDegree : Word);
}
const LOWERED = /^bb?\d+$/;

/** What a word that begins with the letter of a note is, if the rest of it is that of a note too. */
function noteType(image: string): TokenType | undefined {
  const { length } = image;
  let at = 1;
  const sign = length > 1 ? image.charCodeAt(1) : 0;
  if (isAccidental(sign)) at = image.charCodeAt(2) === sign ? 3 : 2;
  if (at === length) return Tonic;
  for (; at < length; at++) {
    const code = image.charCodeAt(at);
    if (code < 48 || code > 57) return undefined;
  }
  return Pitch;
}

/** `#`, `b`, `♯` or `♭`. */
function isAccidental(code: number): boolean {
  return code === 35 || code === 98 || code === 0x266f || code === 0x266d;
}

/** What a figure is by the sign after its first number. */
function figureType(image: string): TokenType {
  for (let i = 1; i < image.length; i++) {
    const code = image.charCodeAt(i);
    if (code >= 48 && code <= 57) continue;
    if (code === 47) return image.indexOf("/", i + 1) < 0 ? Fraction : OtherDate;
    if (code === 45) return DateText;
    if (code === 58) return Ratio;
    if (code === 46) return image.indexOf(".", i + 1) < 0 ? NumberText : OtherDate;
    return OtherDate;
  }
  return NumberText;
}

/** Splits a piece of text into tokens. Letters that are nothing at all come back as `OddLetters`. */
export function lex(text: string): IToken[] {
  const { tokens, errors } = tokenize(text);
  let before: TokenType | undefined;
  for (const token of tokens) {
    let type = token.tokenType;
    if (type === Word) {
      // A code or an activity may be called like a word of the language.
      if (before !== K.let && before !== K.finding && before !== K.activity) type = wordType(token.image);
    } else if (type === NumberText) {
      if (token.image.length > 2) type = figureType(token.image);
    } else if (type === OtherLineEnd) type = LineEnd;
    before = type;
    if (type === token.tokenType) continue;
    token.tokenType = type;
    token.tokenTypeIdx = type.tokenTypeIdx ?? 0;
  }
  if (errors.length === 0) return tokens;
  for (const { offset, length } of errors) {
    tokens.push(madeToken(OddLetters, text.slice(offset, offset + length), offset, offset + length));
  }
  return tokens.sort((a, b) => a.startOffset - b.startOffset);
}

/** The same definitions with all of chevrotain's checks on, for the tests. */
export function validatedLexers(): Lexer[] {
  return [[], [BracedName, OpenName]].map(
    (quotes) =>
      new Lexer(lexed(...quotes), {
        ensureOptimizations: true,
        positionTracking: "onlyOffset",
        deferDefinitionErrorsHandling: true,
      }),
  );
}

/** Whether a token is a word, one of the language or any other. */
export function isWord({ tokenType, image }: IToken): boolean {
  return tokenType === Word || tokenType === Tonic || WORD_TOKENS.has(image);
}

/** What can be read inside music, if only behind some other word. */
const IN_MUSIC: ReadonlySet<TokenType> = new Set([
  ...[LineEnd, Comment, Fraction, Ratio, NumberText, AlteredDegree, Negative, Pitch, Tonic],
  ...[OpenBracket, CloseBracket, OpenSlur, CloseSlur, Bar, Breath],
  ...[Mode, MinorForm, StepName, Mark, Hairpin, Tonguing, Dynamic, NoteWord, CountWord],
  ...[K.rest, K.lip, K.tie, K.held, K.bend, K.attack, K.pickup, K.free, K.key, K.meter, K.triplet],
  ...[K.repeat, K.ending, K.dotted, K.half, K.whole, K.air, K.tongue, K.step, K.third, K.major, K.minor],
  ...[K.h, K.min, K.s],
]);

/** Of these, what is read behind another word only: `key C major`, `bend half step`, `free 12 s`. */
export const ONLY_BEHIND: ReadonlySet<TokenType> = new Set([
  ...[Tonic, Mode, MinorForm, StepName, CountWord, K.air, K.tongue, K.step, K.third, K.major, K.minor],
  ...[K.h, K.min, K.s],
]);

/** The words that can stand between notes by themselves. */
export const MUSIC_WORDS: readonly string[] = [...WORD_TOKENS]
  .filter(([, type]) => IN_MUSIC.has(type) && !ONLY_BEHIND.has(type))
  .map(([word]) => word);

const READ_IN_MUSIC = marking(IN_MUSIC);

/** Whether a token means something inside music; whether a `]` has its `[` is not asked. */
export function meansInMusic({ tokenTypeIdx }: IToken): boolean {
  return READ_IN_MUSIC[tokenTypeIdx] === true;
}

/** The tokens of music with those that can mean nothing there made into one kind, a `]` without its `[` too. */
export function withOddTokens(tokens: IToken[]): IToken[] {
  let depth = 0;
  const odd = (token: IToken): boolean => {
    const type = token.tokenType;
    if (type === OpenBracket) depth++;
    else if (type === CloseBracket && --depth < 0) {
      depth = 0;
      return true;
    }
    return !meansInMusic(token);
  };
  if (!tokens.some(odd)) return tokens;
  depth = 0;
  return tokens.map((token) => {
    if (!odd(token)) return token;
    return madeToken(OddInMusic, token.image, token.startOffset, endOf(token), token);
  });
}
