import type { IToken, TokenType } from "chevrotain";
import { type Fault, matches } from "./leaves";
import { BARE } from "./outline";
import type { Problem } from "./piece";
import { runRuleOver } from "./run-rule";
import { isoDate, knownSlip, type Slip, unquotedName, weekdayOf } from "./slips";
import type { Span } from "./span";
import { nearWords } from "./spelling";
import { BLOCK_NAMES, type BlockKind, FIRST_WORDS, STATEMENTS, type Statement } from "./statements";
import {
  AnyCount,
  AnyNoteWord,
  BlockToken,
  CloseBrace,
  Comma,
  Comment,
  DateText,
  Dynamic,
  Equals,
  endOf,
  Fraction,
  InstrumentWord,
  isWord,
  K,
  lex,
  Mark,
  MinorForm,
  Mode,
  madeToken,
  NumberText,
  OddLetters,
  OtherDate,
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
  const place = { text, statement, run, at, wants: (type: TokenType) => expected.includes(type) };
  const stem = stemOf(statement, run, at);
  const slip =
    knownSlip(place) ??
    repair(text, kind, statement, run, at, expected, stem) ??
    plain(run, at, expected, stem);
  return problem(slip, helps(text, kind, statement, run, slip));
}

/** How the statement, or the clause of an assignment that is being read, is written. */
function stemOf(statement: Statement, run: readonly IToken[], at: number): string {
  if (statement.block === "assignment") {
    for (let i = Math.min(at, run.length) - 1; i > 0; i--) {
      const shape = CLAUSE_SHAPES.get(run[i]!.tokenType);
      if (shape !== undefined) return `${shape}:`;
    }
  }
  return `${statement.name} is written like \`${statement.example}\`:`;
}

const CLAUSE_SHAPES: ReadonlyMap<TokenType, string> = new Map([
  [K.in, "A key is written like `in A minor`"],
  [K.keys, "Keys that travel are written like `keys C up by half step to G` or `keys F, G`"],
  [K.valves, "Valves are written like `valves open to 123`"],
  [K.tempo, "A tempo is written like `tempo 60`, `tempo 1/8 = 100` or `tempo 50 to 58`"],
  [K.for, "Minutes are written like `for 8 min`"],
  [K.dynamic, "A dynamic is written like `dynamic p`"],
  [K.rest, "A rest is written like `rest 30 s`"],
  [K.drop, "What goes first is marked with `drop when tired`"],
  [K.slur, "An articulation is written like `slur 2 tongue 2`"],
  [K.tongue, "An articulation is written like `slur 2 tongue 2`"],
]);

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

/** How far a run can be read: its length where all of it, or all up to another statement, can. */
function reach(kind: BlockKind, statement: Statement, run: readonly IToken[]): number {
  const { node, fault, consumed } = runRuleOver(statement, [...run], BARE);
  if (node !== undefined && fault === undefined) {
    const next = run[consumed];
    const another = next !== undefined && kind !== "file" && STATEMENTS[kind].has(next.tokenTypeIdx);
    return another ? run.length : consumed;
  }
  const at = fault === undefined ? -1 : run.indexOf(fault.token);
  // A line that ends too soon has been read up to its end, but not to the end of its sense.
  return at < 0 ? run.length - 0.5 : at;
}

/** Where an extra token makes the line readable, where one is too many, or where one is misspelt. */
function repair(
  text: string,
  kind: BlockKind,
  statement: Statement,
  run: readonly IToken[],
  at: number,
  expected: readonly TokenType[],
  stem: string,
): Slip | undefined {
  const token = run[at];
  /** Whether reading goes past the change. */
  const reads = (from: number, to: number, ...put: IToken[]): boolean => {
    const changed = [...run.slice(0, from), ...put, ...run.slice(to)];
    const past = from + put.length + (to > from ? 0 : 1);
    return reach(kind, statement, changed) >= Math.min(past, changed.length);
  };
  if (token !== undefined && isWord(token)) {
    for (const near of nearWords(token.image, WORD_TOKENS.keys()).slice(0, 4)) {
      if (!reads(at, at + 1, word(near, token))) continue;
      return {
        span: spanOf(token),
        message: `\`${token.image}\` does not belong here. Did you mean \`${near}\`?`,
        mend: near,
      };
    }
    const name = unquotedName(text, run, at);
    const end = name === undefined ? at : run.findIndex((other) => endOf(other) === name.span.end) + 1;
    if (
      name !== undefined &&
      reads(at, end, madeToken(QuotedName, name.mend ?? "", name.span.start, name.span.end))
    ) {
      return name;
    }
  }
  const single = expected.length === 1;
  const fixed = (expected.length === 0 ? [Comma] : expected).flatMap(spellings);
  for (const missing of fixed) {
    if (token === undefined && !single) continue;
    const beside = token ?? run[at - 1]!;
    const words = missing.split(" ").map((each) => word(each, beside));
    if (!reads(at, at, ...words)) continue;
    const message = `${stem} here ${/^\w/.test(missing) ? "" : "the "}\`${missing}\` is missing.`;
    const before = run[at - 1];
    // A comma belongs to the word before it, and so does what is missing before a brace or at the end.
    if (before !== undefined && (token === undefined || token.tokenType === BlockToken || missing === ",")) {
      const mend = `${before.image}${missing === "," ? "" : " "}${missing}`;
      return { span: spanOf(before), message, mend };
    }
    return { span: spanOf(beside), message, mend: `${missing} ${beside.image}` };
  }
  if (token === undefined || token.tokenType === BlockToken) return undefined;
  const rest = run.slice(at + 1);
  const before = run.slice(0, at);
  const [only] = fixed;
  if (single && only !== undefined && !only.includes(" ")) {
    const put = [...before, word(only, token), ...rest];
    if (reach(kind, statement, put) === put.length) {
      return { span: spanOf(token), message: `${stem} here \`${only}\` should stand.`, mend: only };
    }
  }
  if (reach(kind, statement, [...before, ...rest]) === run.length - 1) {
    return { span: spanOf(token), message: `${stem} \`${shown(token)}\` does not belong here.`, mend: "" };
  }
  return undefined;
}

/** Whether a mend makes the line readable, or at least readable past the mended place. */
function helps(
  text: string,
  kind: BlockKind,
  statement: Statement,
  run: readonly IToken[],
  slip: Slip,
): boolean {
  const { span, mend } = slip;
  if (mend === undefined) return false;
  const first = run[0]!.startOffset;
  // Blocks stay folded: what is in them is no part of this slip.
  const block = run.findIndex(({ tokenType }) => tokenType === BlockToken);
  const end = block < 0 ? endOf(run.at(-1)!) : run[block]!.startOffset;
  const mended = lex(`${text.slice(first, span.start)}${mend}${text.slice(Math.min(span.end, end), end)}`);
  const changed = [
    ...mended.filter(({ tokenType }) => tokenType !== Comment),
    ...(block < 0 ? [] : run.slice(block)),
  ];
  const far = reach(kind, statement, changed);
  if (far >= changed.length) return true;
  const reached = changed[Math.floor(far)];
  return (
    reached !== undefined &&
    far === Math.floor(far) &&
    reached.startOffset > span.start - first + mend.length - 1
  );
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

/** The ways to write what is missing: `at` never stands alone, and is tried with the words that follow it. */
function spellings(type: TokenType): string[] {
  const one = spelling(type);
  if (one === undefined) return [];
  return one === "at" ? ["at", "at most", "at least"] : [one];
}

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
  [Word, "a word"],
  [InstrumentWord, "an instrument, such as `trumpet`"],
]);

function plain(run: readonly IToken[], at: number, expected: readonly TokenType[], stem: string): Slip {
  const token = run[at];
  const names = [
    ...new Set(
      expected.map((type) => {
        const fixed = spelling(type);
        return LABELS.get(type) ?? (fixed === undefined ? "something else" : `\`${fixed}\``);
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
  if (kind === "record") {
    const iso = first.tokenType === OtherDate ? isoDate(image) : undefined;
    if (iso !== undefined) return say(`A date is written year-month-day: \`${iso}\`.`, iso);
    return say(
      'A line of the record begins with the week or the day: `week 1 "K. M." …` or `2026-09-15 "K. M." …`.',
    );
  }
  const inside = [...STATEMENTS[kind].values()].find(({ example }) => example.split(" ").includes(image));
  if (inside !== undefined) {
    return say(`In ${BLOCK_NAMES[kind]} this is written like \`${inside.example}\`.`);
  }
  const homes = homesOf(first, kind);
  if (homes.length > 0) {
    return say(`\`${shown(first)}\` belongs in ${joinOr(homes)}, not in ${BLOCK_NAMES[kind]}.`);
  }
  const day = kind === "weeks" ? weekdayOf(image) : undefined;
  if (day !== undefined) return say(`\`${image}\` is written \`${day}\`.`, day);
  const near = nearWords(image, FIRST_WORDS[kind])[0];
  if (near !== undefined) {
    return say(`\`${image}\` is not a word of ${BLOCK_NAMES[kind]}. Did you mean \`${near}\`?`, near);
  }
  const words = [...new Set(FIRST_WORDS[kind])];
  const some = words.slice(0, 5).map((each) => `\`${each}\``);
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
function homesOf(first: IToken, here: BlockKind): string[] {
  const homes: string[] = [];
  for (const [kind, statements] of Object.entries(STATEMENTS)) {
    if (kind === "file" || !statements.has(first.tokenTypeIdx)) continue;
    // In a level, `clock` wants to be a budget and not what a booking asks for.
    if (kind === "asks" && (here === "player" || here === "exercise")) continue;
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
  const homes = homesOf(first, "file");
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
