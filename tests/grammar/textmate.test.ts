import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { highlightingFiles, type TextMatePattern, textMateGrammar } from "../../grammar/textmate";
import { WORD_TOKENS } from "../../grammar/tokens";
import { DECLARATION_WORDS } from "../../grammar/words";
import { SAMPLES, STUDIO } from "./read";

describe("the committed files", () => {
  test.each(Object.entries(highlightingFiles()))("%s is what is made from the words", (name, content) => {
    const committed = readFileSync(new URL(`../../grammar/${name}`, import.meta.url), "utf8");
    expect(JSON.parse(committed)).toEqual(JSON.parse(JSON.stringify(content)));
  });
});

const { patterns, repository } = textMateGrammar();

/** The patterns with those they include in their places. */
function flat(list: readonly TextMatePattern[]): TextMatePattern[] {
  return list.flatMap((pattern) =>
    pattern.include === undefined ? [pattern] : flat(repository[pattern.include.slice(1)]!.patterns),
  );
}

interface Painted {
  readonly text: string;
  readonly scope: string;
}

/** A small stand-in for an editor's engine: enough for one level of `begin` and `end`. */
function paint(text: string): Painted[] {
  const out: Painted[] = [];
  let rules = flat(patterns);
  let open: TextMatePattern | undefined;
  for (const line of text.split("\n")) {
    let at = 0;
    while (at < line.length) {
      let best: { rule: TextMatePattern; found: RegExpExecArray; closes: boolean } | undefined;
      const consider = (rule: TextMatePattern, source: string, closes: boolean): void => {
        const regex = new RegExp(source, "g");
        regex.lastIndex = at;
        const found = regex.exec(line);
        if (found !== null && (best === undefined || found.index < best.found.index))
          best = { rule, found, closes };
      };
      if (open?.end !== undefined) consider(open, open.end, true);
      for (const rule of rules) consider(rule, rule.begin ?? rule.match ?? "(?!)", false);
      if (best === undefined) break;
      const { rule, found, closes } = best;
      const captures = rule.captures ?? rule.beginCaptures;
      if (rule.name !== undefined) out.push({ text: found[0], scope: rule.name });
      else if (!closes && captures !== undefined) {
        for (const [i, { name }] of Object.entries(captures)) {
          const part = found[Number(i)];
          if (part !== undefined) out.push({ text: part, scope: name });
        }
      }
      if (closes) {
        open = undefined;
        rules = flat(patterns);
      } else if (rule.begin !== undefined) {
        open = rule;
        rules = flat(rule.patterns ?? []);
      }
      at = found.index + Math.max(1, found[0].length);
    }
  }
  return out;
}

const scopeOf = (text: string, word: string): string | undefined =>
  paint(text).find((painted) => painted.text === word)?.scope;

describe("the highlighting", () => {
  test.each([
    ["# exercise", "# exercise", "comment.line.number-sign.practice"],
    ['exercise "Slow fifths" {', "exercise", "keyword.control.declaration.practice"],
    ['exercise "Slow fifths" {', '"Slow fifths"', "entity.name.type.practice"],
    ['  in "Long tones"', '"Long tones"', "string.quoted.double.practice"],
    ['  aim "# no comment"', '"# no comment"', "string.quoted.double.practice"],
    ["  range F#3 to C6", "F#3", "constant.character.pitch.practice"],
    ["  range F#3 to C6 # high", "# high", "comment.line.number-sign.practice"],
    ["  key Bb major", "Bb", "constant.character.key.practice"],
    ["  tempo 1/8. = 72", "1/8.", "constant.numeric.value.practice"],
    ["  from 2026-09-07 to 2026-12-11", "2026-09-07", "constant.numeric.date.practice"],
    ["  breath 10 s", "s", "keyword.other.unit.practice"],
    ["  clock at most 10min", "min", "keyword.other.unit.practice"],
    ["  practice Mon to Sat", "Mon", "constant.language.weekday.practice"],
    ["  music { 1/4 C4 accent }", "accent", "support.function.mark.practice"],
    ["  music { mf 1/4 C4 }", "mf", "support.constant.dynamic.practice"],
    ["  degrees from C4 { 1/4 -b7 }", "-b7", "constant.numeric.degree.practice"],
    ["  music {\n C4 |\n }\n  rest equal", "|", "keyword.operator.bar.practice"],
    ["  music {\n C4 |\n }\n  rest equal", "equal", "keyword.other.practice"],
    ["  music { C4 ' }", "'", "keyword.operator.breath.practice"],
  ])("%s: %s", (text, word, scope) => {
    expect(scopeOf(text, word)).toBe(scope);
  });

  test("knows every word of the language", () => {
    for (const word of WORD_TOKENS.keys()) {
      const line = (DECLARATION_WORDS as readonly string[]).includes(word) ? `${word} x` : ` ${word} x`;
      expect(scopeOf(line, word), word).toBeDefined();
    }
  });

  test("leaves no word of a sound plan without a colour", () => {
    for (const [, text] of [["", STUDIO] as const, ...SAMPLES]) {
      const painted = new Set(paint(text).flatMap(({ text: part }) => part.split(/\s+/)));
      for (const line of text.split("\n")) {
        const bare = line.replace(/"[^"]*"/g, "").replace(/(?:^|\s)#(?:\s.*)?$/, "");
        for (const word of bare.match(/[A-Za-z][\w-]*/g) ?? []) {
          const free = /^\s*(?:let|finding|activity|instrument)\b/.test(line);
          if (WORD_TOKENS.has(word) && !free) expect(painted, `${word} in ${line}`).toContain(word);
        }
      }
    }
  });
});
