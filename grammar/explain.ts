import type { IToken, TokenType } from "chevrotain";
import { type Fault, matches } from "./leaves";
import { BARE } from "./outline";
import type { Problem } from "./piece";
import { runRule } from "./run-rule";
import { knownSlip, type Slip, weekdayOf } from "./slips";
import type { Span } from "./span";
import { nearWords } from "./spelling";
import { BLOCK_NAMES, type BlockKind, FIRST_WORDS, STATEMENTS, type Statement } from "./statements";
import {
  AnyCount,
  AnyNoteWord,
  AnyWord,
  BlockToken,
  CloseBrace,
  Comma,
  DateText,
  Dynamic,
  Equals,
  endOf,
  Fraction,
  InstrumentWord,
  K,
  lex,
  Mark,
  MinorForm,
  Mode,
  madeToken,
  NumberText,
  OddLetters,
  Percent,
  Pitch,
  QuotedName,
  StepName,
  Tonguing,
  Tonic,
  Unit,
  Weekday,
  WORD_TOKENS,
  Word,
} from "./tokens";
import { DECLARATION_WORDS } from "./words";

/**
 * Finds the words for a statement that could not be read. First the slips that are known by name, then a
 * repair that is tried out (a word put in, taken away or spelt right makes the line readable), and only then
 * what might have stood there.
 */

const DECLARING: ReadonlySet<string> = new Set(DECLARATION_WORDS);

/** The finding for a statement that began well and then could not be read. */
export function explainFault(
  text: string,
  kind: BlockKind,
  statement: Statement,
  run: readonly IToken[],
  fault: Fault,
): Problem {
  const found = run.indexOf(fault.token);
  const at = found < 0 ? run.length : found;
  const token = run[at];
  if (fault.message !== undefined) {
    const span = spanOf(token ?? run.at(-1)!);
    return { code: "unreadable", span, message: fault.message, mend: fault.mend };
  }
  if (token?.tokenType === OddLetters) return oddLetters(token);
  const { expected } = fault;
  const wants = (type: TokenType): boolean =>
    expected.some((other) => other === type || (type.CATEGORIES?.includes(other) ?? false));
  const slip =
    knownSlip({ text, statement, run, at, wants }) ??
    repair(kind, statement, run, at, expected) ??
    plain(statement, run, at, expected);
  return problem(slip, clean(text, kind, statement, run, slip));
}

function problem({ span, message, mend }: Slip, offer: boolean): Problem {
  const title = mend === "" ? "Take it away" : `Write \`${mend}\``;
  return {
    code: "unreadable",
    span,
    message,
    mend: mend === undefined || !offer ? undefined : { title, text: mend },
  };
}

function spanOf(token: IToken): Span {
  return { start: token.startOffset, end: endOf(token) };
}

function readsWhole(kind: BlockKind, statement: Statement, run: readonly IToken[]): boolean {
  const { node, fault, consumed } = runRule(statement, [...run], BARE);
  if (node === undefined || fault !== undefined) return false;
  return consumed === run.length || (kind !== "file" && STATEMENTS[kind].has(run[consumed]!.tokenTypeIdx));
}

/** Where an extra token makes the line readable, where one is too many, or where one is misspelt. */
function repair(
  kind: BlockKind,
  statement: Statement,
  run: readonly IToken[],
  at: number,
  expected: readonly TokenType[],
): Slip | undefined {
  const token = run[at];
  const stem = `${statement.name} is written like \`${statement.example}\`:`;
  const reads = (from: number, to: number, ...put: IToken[]): boolean =>
    readsWhole(kind, statement, [...run.slice(0, from), ...put, ...run.slice(to)]);
  if (token !== undefined && matches(token, AnyWord)) {
    for (const near of nearWords(token.image, WORD_TOKENS.keys()).slice(0, 3)) {
      if (!reads(at, at + 1, word(near, token))) continue;
      return {
        span: spanOf(token),
        message: `\`${token.image}\` does not belong here. Did you mean \`${near}\`?`,
        mend: near,
      };
    }
  }
  const fixed = expected.filter((type) => spelling(type) !== undefined).slice(0, 8);
  for (const type of fixed) {
    const missing = spelling(type)!;
    const beside = token ?? run[at - 1]!;
    if (!reads(at, at, word(missing, beside))) continue;
    const { image } = beside;
    if (beside.tokenType === BlockToken)
      return {
        span: spanOf(run[at - 1]!),
        message: `${stem} here the \`${missing}\` is missing.`,
        mend: `${run[at - 1]!.image} ${missing}`,
      };
    const mend = token === undefined ? `${image} ${missing}` : `${missing} ${image}`;
    return { span: spanOf(beside), message: `${stem} here the \`${missing}\` is missing.`, mend };
  }
  if (token === undefined) return undefined;
  for (const type of fixed) {
    const right = spelling(type)!;
    if (!reads(at, at + 1, word(right, token))) continue;
    return { span: spanOf(token), message: `${stem} here \`${right}\` should stand.`, mend: right };
  }
  if (token.tokenType !== BlockToken && reads(at, at + 1)) {
    return { span: spanOf(token), message: `${stem} \`${token.image}\` does not belong here.`, mend: "" };
  }
  return undefined;
}

/** Whether the line can be read once the slip is mended, as far as the tokens tell. */
function clean(
  text: string,
  kind: BlockKind,
  statement: Statement,
  run: readonly IToken[],
  slip: Slip,
): boolean {
  if (slip.mend === undefined) return false;
  const first = run[0]!.startOffset;
  const blocks = run.filter(({ tokenType }) => tokenType === BlockToken);
  // Blocks stay folded: what is in them is no part of this slip.
  const firstBlock = blocks[0];
  const end = firstBlock === undefined ? endOf(run.at(-1)!) : firstBlock.startOffset;
  const before = text.slice(first, slip.span.start);
  const after = slip.span.end > end ? "" : text.slice(slip.span.end, end);
  const mended = lex(`${before}${slip.mend}${after}`);
  return readsWhole(kind, statement, [
    ...mended,
    ...(firstBlock === undefined ? [] : run.slice(run.indexOf(firstBlock))),
  ]);
}

function word(image: string, beside: IToken): IToken {
  const type = WORD_TOKENS.get(image) ?? SIGNS.get(image) ?? Word;
  return madeToken(type, image, beside.startOffset, beside.startOffset);
}

const SIGNS: ReadonlyMap<string, TokenType> = new Map([
  ["=", Equals],
  ["%", Percent],
  [",", Comma],
]);

/** The one way to write a token, where there is one. */
function spelling(type: TokenType): string | undefined {
  if (type === Equals) return "=";
  if (type === Percent) return "%";
  if (type === Comma) return ",";
  const label = type.LABEL;
  return label?.startsWith("`") ? label.slice(1, -1) : undefined;
}

const LABELS: ReadonlyMap<TokenType, string> = new Map([
  [QuotedName, "a name in double quotes"],
  [AnyCount, "a number"],
  [NumberText, "a number"],
  [Pitch, "a note with its octave, such as `C4`"],
  [Tonic, "a key, such as `Bb`"],
  [DateText, "a date, such as `2026-09-07`"],
  [Fraction, "a note value, such as `1/4`"],
  [AnyNoteWord, "a note value, such as `1/4`"],
  [K.dotted, "a note value, such as `1/4`"],
  [Unit, "a unit, `s`, `min` or `h`"],
  [BlockToken, "what is meant, in braces `{ … }`"],
  [Weekday, "a weekday, such as `Mon`"],
  [Dynamic, "a dynamic, such as `mf`"],
  [Mark, "a sign, such as `trill`"],
  [Tonguing, "`double` or `triple`"],
  [StepName, "`fourth`, `fifth` or `octave`"],
  [Mode, "a mode, such as `dorian`"],
  [MinorForm, "`harmonic`, `melodic` or `natural`"],
  [AnyWord, "a word"],
  [InstrumentWord, "an instrument, such as `trumpet`"],
]);

function plain(
  statement: Statement,
  run: readonly IToken[],
  at: number,
  expected: readonly TokenType[],
): Slip {
  const stem = `${statement.name} is written like \`${statement.example}\`:`;
  const token = run[at];
  const names = [
    ...new Set(
      expected.map((type) => {
        const fixed = spelling(type);
        return fixed === undefined ? (LABELS.get(type) ?? "something else") : `\`${fixed}\``;
      }),
    ),
  ];
  const list = names.length > 6 ? `${names.slice(0, 6).join(", ")} …` : joinOr(names);
  if (token === undefined) {
    const span = spanOf(run.at(-1)!);
    return {
      span,
      message:
        names.length === 0 ? `${stem} something is missing.` : `${stem} after this, ${list} is missing.`,
      mend: undefined,
    };
  }
  const span = spanOf(token);
  if (token.tokenType === BlockToken) {
    const brace = { start: span.start, end: span.start + 1 };
    const message =
      names.length === 0 ? `${stem} it has no braces.` : `${stem} before the \`{\`, ${list} is missing.`;
    return { span: brace, message, mend: undefined };
  }
  const message =
    names.length === 0
      ? `${stem} \`${token.image}\` does not belong here.`
      : `${stem} instead of \`${shown(token)}\`, ${list} should stand here.`;
  return { span, message, mend: undefined };
}

function joinOr(names: readonly string[]): string {
  if (names.length < 2) return names[0] ?? "";
  return `${names.slice(0, -1).join(", ")} or ${names.at(-1)}`;
}

/** A token as it can stand in a sentence. */
function shown({ image }: IToken): string {
  return image.length > 30 ? `${image.slice(0, 29)}…` : image;
}

/** The finding for a line whose first word begins no statement of its block. */
export function explainStart(text: string, kind: BlockKind, run: readonly IToken[]): Problem {
  const first = run[0]!;
  if (first.tokenType === OddLetters) return oddLetters(first);
  const span = spanOf(first);
  const say = (message: string, mend?: string): Problem => problem({ span, message, mend }, true);
  const { image } = first;
  if (first.tokenType === BlockToken) {
    const brace = { start: span.start, end: span.start + 1 };
    const message = "Something must stand before a `{` to say what the braces are about.";
    return { code: "unreadable", span: brace, message, mend: undefined };
  }
  if (image.startsWith("#")) {
    const sign = { start: span.start, end: span.start + 1 };
    return problem({ span: sign, message: "A comment has a space after its `#`.", mend: "# " }, true);
  }
  if (kind === "file") return explainMargin(text, run, say);
  if (DECLARING.has(image)) {
    return say(
      `\`${image}\` begins a declaration, and those stand at the margin, outside of all braces. Is a \`}\` missing above?`,
    );
  }
  if (kind === "session" && !matches(first, AnyCount) && CLAUSE_WORDS.has(image)) {
    return say(
      `In a session, \`${image}\` stands behind an exercise's name, on the same line: \`"Slow fifths"  ${image} …\`.`,
    );
  }
  if (first.tokenType === QuotedName && (kind === "weeks" || kind === "term")) {
    return say(
      'An exercise is practised in a session: `Mon to Fri "Morning" 15 min { … }` stands around it.',
    );
  }
  if ((first.tokenType === Weekday || image === "on") && kind === "term") {
    return say("A session stands in a block of weeks: `weeks 1 to 4 { … }`.");
  }
  if (kind === "exercise" && (first.tokenType === Pitch || first.tokenType === Fraction)) {
    return say("Notes stand between the braces of `music { … }`.");
  }
  const homes = homesOf(first);
  if (homes.length > 0) {
    return say(`\`${shown(first)}\` belongs in ${joinOr(homes)}, not in ${BLOCK_NAMES[kind]}.`);
  }
  const day = kind === "weeks" ? weekdayOf(image) : undefined;
  if (day !== undefined) return say(`\`${image}\` is written \`${day}\`.`, day);
  const near = nearWords(image, FIRST_WORDS[kind])[0];
  if (near !== undefined) {
    return say(`\`${image}\` is not a word of ${BLOCK_NAMES[kind]}. Did you mean \`${near}\`?`, near);
  }
  const words = [...new Set(FIRST_WORDS[kind])].filter((first_) => /^[A-Za-z]/.test(first_));
  const some = words.slice(0, 5).map((first_) => `\`${first_}\``);
  const here = kind === "session" ? ["an exercise's name in quotes", ...some.slice(0, 3)] : some;
  return say(
    `\`${shown(first)}\` means nothing in ${BLOCK_NAMES[kind]}. Here can stand ${words.length > 5 ? `${here.join(", ")} and others` : joinOr(here)}.`,
  );
}

const CLAUSE_WORDS = new Set(
  "in keys valves all tempo once twice for dynamic drop onward afresh when folded next slur tongue double triple as between".split(
    " ",
  ),
);

/** The blocks in which a word begins a statement. */
function homesOf(first: IToken): string[] {
  const homes: string[] = [];
  for (const [kind, statements] of Object.entries(STATEMENTS)) {
    if (kind === "file" || !statements.has(first.tokenTypeIdx)) continue;
    homes.push(BLOCK_NAMES[kind as BlockKind]);
  }
  return homes.slice(0, 3);
}

function explainMargin(
  _text: string,
  run: readonly IToken[],
  say: (message: string, mend?: string) => Problem,
): Problem {
  const first = run[0]!;
  const { image } = first;
  const near = first.tokenType === Word ? nearWords(image, DECLARATION_WORDS)[0] : undefined;
  if (near !== undefined) return say(`\`${image}\` begins no declaration. Did you mean \`${near}\`?`, near);
  if (first.tokenType === CloseBrace) return say("This `}` closes nothing.", "");
  const homes = homesOf(first);
  if (homes.length > 0) {
    return say(
      `\`${shown(first)}\` stands outside of all braces. It belongs in ${joinOr(homes)}: is the line above it missing?`,
    );
  }
  const list = DECLARATION_WORDS.map((each) => `\`${each}\``);
  return say(`\`${shown(first)}\` begins no declaration. At the margin can stand ${joinOr(list)}.`);
}

/** The finding for what stands in a piece after its declaration has ended. */
export function explainOutside(text: string, run: readonly IToken[]): Problem {
  const first = run[0]!;
  if (first.tokenType === OddLetters) return oddLetters(first);
  const span = spanOf(first);
  const words = text.slice(span.start, Math.min(span.end, span.start + 30));
  return {
    code: "unreadable",
    span,
    message: `\`${words}\` stands behind the end of the declaration above. Put it between the braces, or take it away.`,
    mend: undefined,
  };
}

/** The finding for letters that the language has no use for. */
export function oddLetters(token: IToken): Problem {
  const span = spanOf(token);
  if (/^[\p{Cc}\p{Cf}]/u.test(token.image)) {
    return oddLetter(token.image.charAt(0), { start: span.start, end: span.start + 1 });
  }
  return {
    code: "unreadable",
    span,
    message: `\`${shown(token)}\` means nothing here. Take it away.`,
    mend: { title: "Take it away", text: "" },
  };
}

/** The finding for a letter that cannot be seen. */
export function oddLetter(letter: string, span: Span): Problem {
  const code = letter.charCodeAt(0).toString(16).toUpperCase().padStart(4, "0");
  return {
    code: "odd-letter",
    span,
    message: `A letter that cannot be seen stands here (U+${code}). Take it away.`,
    mend: { title: "Take it away", text: "" },
  };
}
