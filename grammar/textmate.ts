import { DECLARATION_WORDS, WORD_GROUPS } from "./words";

/**
 * The highlighting that an editor does by itself, made from the table of words so that it cannot forget one.
 * `write-highlighting.ts` writes the two files, and a test compares them with what is made here.
 */

/** One pattern of a TextMate grammar, as far as this one uses them. */
export interface TextMatePattern {
  readonly name?: string;
  readonly match?: string;
  readonly begin?: string;
  readonly end?: string;
  readonly include?: string;
  readonly contentName?: string;
  readonly captures?: Readonly<Record<string, { readonly name: string }>>;
  readonly beginCaptures?: Readonly<Record<string, { readonly name: string }>>;
  readonly endCaptures?: Readonly<Record<string, { readonly name: string }>>;
  readonly patterns?: readonly TextMatePattern[];
}

/** A whole TextMate grammar. */
export interface TextMateGrammar {
  readonly $schema: string;
  readonly name: string;
  readonly scopeName: string;
  readonly fileTypes: readonly string[];
  readonly patterns: readonly TextMatePattern[];
  readonly repository: Readonly<Record<string, { readonly patterns: readonly TextMatePattern[] }>>;
}

const ACCIDENTAL = "(?:##?|bb?|♯♯?|♭♭?)";

/** The words of these groups, each whole word alone. */
function anyOf(words: readonly string[]): string {
  const longestFirst = [...new Set(words)].sort((a, b) => b.length - a.length || (a < b ? -1 : 1));
  return `(?<![\\w-])(?:${longestFirst.join("|")})(?![\\w-])`;
}

function groupWords(...tokens: string[]): string[] {
  return WORD_GROUPS.filter(({ token }) => token !== undefined && tokens.includes(token)).flatMap(
    ({ rows }) => rows.map(([word]) => word),
  );
}

function titledWords(title: string): string[] {
  return WORD_GROUPS.filter((group) => group.title === title).flatMap(({ rows }) =>
    rows.flatMap(([phrase]) => phrase.split(" ")),
  );
}

const UNITS = [...titledWords("Units"), "Hz", "dB", "points", "times"];

/** All words that are not coloured as something more telling. */
function plainWords(): string[] {
  const special = new Set([...UNITS, ...DECLARATION_WORDS]);
  return WORD_GROUPS.filter(({ token }) => token === undefined)
    .flatMap(({ rows }) => rows.flatMap(([phrase]) => phrase.split(" ")))
    .filter((word) => /^[A-Za-z]/.test(word) && !special.has(word));
}

/** The highlighting of a plan text. */
export function textMateGrammar(): TextMateGrammar {
  return {
    $schema: "https://raw.githubusercontent.com/martinring/tmlanguage/master/tmlanguage.json",
    name: "Practice plan",
    scopeName: "source.practice",
    fileTypes: ["practice"],
    patterns: [
      { include: "#comment" },
      { include: "#declaration" },
      { include: "#music" },
      { include: "#name" },
      { include: "#figure" },
      { include: "#pitch" },
      { include: "#word" },
      { include: "#sign" },
    ],
    repository: {
      comment: {
        patterns: [{ name: "comment.line.number-sign.practice", match: "(?:^|(?<=\\s))#(?=[\\s#]|$).*$" }],
      },
      declaration: {
        patterns: [
          {
            match: `^(${DECLARATION_WORDS.join("|")})(?![\\w-])(?:\\s+(of)(?![\\w-]))?(?:\\s+("[^"{}]*"))?`,
            captures: {
              "1": { name: "keyword.control.declaration.practice" },
              "2": { name: "keyword.other.practice" },
              "3": { name: "entity.name.type.practice" },
            },
          },
          // Sessions call a routine up in the middle of a line.
          { name: "keyword.other.practice", match: "(?<![\\w-])routine(?![\\w-])" },
        ],
      },
      music: {
        patterns: [
          {
            begin: `(?<![\\w-])(music|partials|degrees)(?![\\w-])(?:\\s+(from)\\s+([A-G]${ACCIDENTAL}?\\d+))?\\s*(\\{)`,
            end: "\\}",
            beginCaptures: {
              "1": { name: "keyword.other.practice" },
              "2": { name: "keyword.other.practice" },
              "3": { name: "constant.character.pitch.practice" },
              "4": { name: "punctuation.section.block.practice" },
            },
            endCaptures: { "0": { name: "punctuation.section.block.practice" } },
            contentName: "meta.music.practice",
            patterns: [
              { include: "#comment" },
              { include: "#value" },
              { include: "#pitch" },
              { include: "#degree" },
              { include: "#word" },
              { name: "keyword.operator.bar.practice", match: "\\|" },
              { name: "keyword.operator.breath.practice", match: "['’]" },
              { name: "punctuation.definition.slur.practice", match: "[()]" },
              { name: "punctuation.section.brackets.practice", match: "[\\[\\]]" },
            ],
          },
        ],
      },
      name: { patterns: [{ name: "string.quoted.double.practice", match: '"[^"{}]*"|[“”„][^“”{}]*[“”]' }] },
      figure: {
        patterns: [
          { name: "constant.numeric.date.practice", match: "(?<![\\w-])\\d+-\\d+-\\d+(?![\\w-])" },
          { include: "#value" },
          { name: "constant.numeric.practice", match: "(?<![\\w.])\\d+(?:\\.\\d+)?" },
          { name: "constant.numeric.practice", match: anyOf(groupWords("CountWord")) },
        ],
      },
      value: {
        patterns: [
          { name: "constant.numeric.value.practice", match: "(?<![\\w/])\\d+/\\d+\\.*" },
          { name: "constant.numeric.value.practice", match: anyOf([...groupWords("NoteWord"), "dotted"]) },
        ],
      },
      degree: {
        patterns: [
          { name: "constant.numeric.degree.practice", match: `(?<![\\w#])-?${ACCIDENTAL}?\\d+(?::\\d+)?` },
        ],
      },
      pitch: {
        patterns: [
          { name: "constant.character.pitch.practice", match: `(?<![\\w-])[A-G]${ACCIDENTAL}?\\d+(?!\\w)` },
          { name: "constant.character.key.practice", match: `(?<![\\w-])[A-G]${ACCIDENTAL}?(?![\\w#♯♭])` },
        ],
      },
      word: {
        patterns: [
          {
            name: "keyword.other.unit.practice",
            match: `${anyOf(UNITS)}|(?<=\\d)(?:${UNITS.join("|")})(?!\\w)|%`,
          },
          { name: "constant.language.weekday.practice", match: anyOf(groupWords("Weekday")) },
          { name: "support.constant.dynamic.practice", match: anyOf(groupWords("Dynamic", "Hairpin")) },
          { name: "support.function.mark.practice", match: anyOf(groupWords("Mark", "Tonguing")) },
          { name: "constant.language.practice", match: anyOf(groupWords("Mode", "MinorForm", "StepName")) },
          { name: "keyword.other.practice", match: anyOf(plainWords()) },
        ],
      },
      sign: {
        patterns: [
          { name: "punctuation.section.block.practice", match: "[{}]" },
          { name: "keyword.operator.practice", match: "=" },
          { name: "punctuation.separator.practice", match: "," },
        ],
      },
    },
  };
}

/** What an editor needs to know about brackets, comments and indentation. */
export function languageConfiguration(): object {
  return {
    comments: { lineComment: "# " },
    brackets: [
      ["{", "}"],
      ["[", "]"],
      ["(", ")"],
    ],
    autoClosingPairs: [
      { open: "{", close: "}", notIn: ["string", "comment"] },
      { open: "[", close: "]", notIn: ["string", "comment"] },
      { open: "(", close: ")", notIn: ["string", "comment"] },
      { open: '"', close: '"', notIn: ["string", "comment"] },
    ],
    surroundingPairs: [
      ["{", "}"],
      ["[", "]"],
      ["(", ")"],
      ['"', '"'],
    ],
    // A note with its accidental, a date, a fraction and a code with hyphens are one word each.
    wordPattern: '"[^"]*"|[A-Za-z_\\u00c0-\\uffdc][\\w#♯♭\\u00c0-\\uffdc-]*|-?\\d+(?:[-/.:]\\d+)*\\.*',
    indentationRules: {
      increaseIndentPattern: "^(?!\\s*# ).*[{\\[][^}\\]]*$",
      decreaseIndentPattern: "^\\s*[}\\]]",
    },
    folding: { offSide: false },
  };
}

/** What the two committed files hold. */
export function highlightingFiles(): Readonly<Record<string, object>> {
  return {
    "practice.tmLanguage.json": textMateGrammar(),
    "language-configuration.json": languageConfiguration(),
  };
}
