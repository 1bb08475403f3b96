import type { IToken } from "chevrotain";
import { oddLetters } from "./explain";
import type { OddMusic } from "./music-rules";
import { type NoteSlip, noteSlip } from "./note-slips";
import type { Problem } from "./piece";
import { dynamicSign } from "./slips";
import { nearWords } from "./spelling";
import {
  AlteredDegree,
  BlockToken,
  CloseBracket,
  Comma,
  Dash,
  endOf,
  isWord,
  K,
  MUSIC_WORDS,
  Negative,
  NumberText,
  OddLetters,
  Pitch,
  QuotedName,
  Tonic,
  Word,
} from "./tokens";

/** Finds the words for what means nothing between the notes. */

/** How the notes are written: see `MusicField`. */
type By = "pitches" | "degrees" | "partials";

/** Odd tokens that belong to one thing, such as `F #4`. */
interface OddGroup {
  readonly start: number;
  end: number;
  readonly first: IToken;
  readonly word: string;
  readonly message: string | undefined;
}

/** One finding for each odd thing; equal slips side by side are told about once and mended together. */
export function musicProblems(text: string, odd: readonly OddMusic[], by: By): Problem[] {
  const groups = gather(
    text,
    [...odd].sort((a, b) => a.token.startOffset - b.token.startOffset),
  );
  const problems: Problem[] = [];
  let last: { start: number; end: number; slip: NoteSlip } | undefined;
  const tell = (): void => {
    if (last === undefined) return;
    const { start, end, slip } = last;
    const mend = slip.mend === undefined ? undefined : { title: `Write \`${slip.mend}\``, text: slip.mend };
    problems.push({ code: "unreadable", span: { start, end }, message: slip.message, mend });
    last = undefined;
  };
  for (const group of groups) {
    const { start, end, first } = group;
    if (first.tokenType === OddLetters) {
      tell();
      problems.push(oddLetters(first));
      continue;
    }
    const slip = group.message === undefined ? slipOf(text, group, by) : plainSlip(group.message);
    const gap = last === undefined ? "" : text.slice(last.end, start);
    if (last !== undefined && last.slip.kind === slip.kind && /^[ \t]+$/.test(gap)) {
      const both = last.slip.mend !== undefined && slip.mend !== undefined;
      const mend = both ? `${last.slip.mend}${gap}${slip.mend}` : undefined;
      last = { start: last.start, end, slip: { ...last.slip, mend } };
      continue;
    }
    tell();
    last = { start, end: first.tokenType === BlockToken ? start + 1 : end, slip };
  }
  tell();
  return problems;
}

function plainSlip(message: string): NoteSlip {
  return { kind: message, message, mend: undefined };
}

/** Joins the tokens of one thing: `c#4` is lexed as two, and `F #4` and `C 4` are written as two. */
function gather(text: string, odd: readonly OddMusic[]): OddGroup[] {
  const groups: OddGroup[] = [];
  for (const { token, message } of odd) {
    const start = token.startOffset;
    const end = endOf(token);
    const before = groups.at(-1);
    const figure = token.tokenType === AlteredDegree || token.tokenType === NumberText;
    const gap = before === undefined ? "" : text.slice(before.end, start);
    if (before !== undefined && message === undefined && extendsGroup(before, token, gap)) {
      before.end = end;
      continue;
    }
    if (before !== undefined && message === undefined && before.message === undefined && figure) {
      const spaced = before.first.tokenType === Tonic && gap === " ";
      if (spaced || (gap === "" && isWord(before.first))) {
        groups.pop();
        groups.push({ ...before, end, word: `${before.word}${token.image}` });
        continue;
      }
    }
    groups.push({ start, end, first: token, word: token.image, message });
  }
  return groups;
}

/** Whether a token only goes on with what is odd already: `attack hard`, `tempo 60`, `#loud`. */
function extendsGroup(before: OddGroup, token: IToken, gap: string): boolean {
  if (before.word === "#") return gap === "";
  if (!/^[ \t]+$/.test(gap)) return false;
  if (before.first.tokenType === K.tempo) return token.tokenType === NumberText;
  return before.message !== undefined && token.tokenType === Word;
}

function slipOf(text: string, group: OddGroup, by: By): NoteSlip {
  const { first, word, start, end } = group;
  if (first.tokenType === BlockToken) {
    return plainSlip("Braces cannot stand between notes: what belongs together stands in `[ ]`.");
  }
  if (first.tokenType === CloseBracket) {
    return plainSlip("This `]` closes nothing: there is no `[` that belongs to it.");
  }
  if (first.tokenType === Pitch) {
    return plainSlip(
      by === "degrees"
        ? `\`${word}\` is a written note, and here stand scale degrees. Written notes belong in \`music { … }\`.`
        : `\`${word}\` is a written note, and here stand partials. Written notes belong in \`music { … }\`.`,
    );
  }
  if (first.tokenType === Comma) {
    return {
      kind: "comma",
      message: "A breath is written `'`. Commas mean nothing between notes.",
      mend: "'",
    };
  }
  if (first.tokenType === Tonic && end - start > word.length) {
    return { kind: "space", message: `A note is written without a space: \`${word}\`.`, mend: word };
  }
  if (first.tokenType === Tonic && /\d$/.test(word)) {
    return { kind: "space", message: `A note is written like \`C4\`: \`${word}\`.`, mend: word };
  }
  if (first.tokenType === NumberText || first.tokenType === Negative) {
    return plainSlip(
      "Figures stand for degrees or partials: those belong in `degrees from C4 { … }` or `partials { … }`.",
    );
  }
  if (first.tokenType === QuotedName) return plainSlip("Words in quotes cannot stand between notes.");
  if (first.tokenType === Dash) {
    return plainSlip("A `-` means nothing between notes: write `rest` for a rest, `tie` for a tie.");
  }
  if (first.tokenType === K.tempo) {
    return plainSlip("The tempo stands outside of the notes, on a line of its own.");
  }
  if (word.startsWith("#")) {
    return plainSlip("A comment has a space before and after its `#`.");
  }
  const note = noteSlip(word);
  if (note !== undefined) {
    if (by === "pitches") return note.kind === "octave" ? withOctave(text, group, note) : note;
    return plainSlip(`\`${word}\` is no ${by === "degrees" ? "degree" : "partial"}: here stand numbers.`);
  }
  const dynamic = dynamicSign(word);
  if (dynamic !== undefined) {
    const message = `A dynamic is written with its sign: \`${dynamic}\`.`;
    return { kind: "dynamic", message, mend: dynamic };
  }
  if (/^[rRzZ]$/.test(word)) {
    return { kind: "rest", message: "A rest is written `rest`.", mend: "rest" };
  }
  const near = nearWords(word, MUSIC_WORDS)[0];
  if (near !== undefined) {
    return {
      kind: word,
      message: `\`${word}\` means nothing between notes. Did you mean \`${near}\`?`,
      mend: near,
    };
  }
  const shown = word.length > 30 ? `${word.slice(0, 29)}…` : word;
  return plainSlip(`\`${shown}\` means nothing between notes.`);
}

/** Offers the octave of the last note before it. */
function withOctave(text: string, { start, word }: OddGroup, slip: NoteSlip): NoteSlip {
  const before = text.slice(0, start);
  const octave = /[A-G](?:##?|bb?)?(\d)(?![\s\S]*[A-G](?:##?|bb?)?\d)/.exec(before.slice(-200))?.[1];
  const letter = word.charAt(0).toUpperCase() + word.slice(1);
  return octave === undefined || /^h/i.test(word) ? slip : { ...slip, mend: `${letter}${octave}` };
}
