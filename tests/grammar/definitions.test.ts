import { describe, expect, test } from "vitest";
import { FaultKeeper } from "../../grammar/leaves";
import { PracticeParser } from "../../grammar/rules";
import { FIRST_WORDS, STATEMENTS } from "../../grammar/statements";
import { lex, validatedLexers, WORD_TOKENS } from "../../grammar/tokens";
import { messagesOf } from "./read";

// At run time chevrotain's checks of the definitions are off, because they cost as much as everything else.
describe("the definitions", () => {
  test("of the tokens are sound and can be optimised", () => {
    for (const lexer of validatedLexers()) expect(lexer.lexerDefinitionErrors).toEqual([]);
  });

  test("of the rules are sound and need to look at one token only", () => {
    expect(() => new PracticeParser(new FaultKeeper(), false)).not.toThrow();
  });

  test("give each word of the language its token", () => {
    for (const [word, type] of WORD_TOKENS) {
      expect(lex(word).map(({ tokenType }) => tokenType.name)).toEqual([type.name]);
    }
  });

  test("name words of the language where a statement begins with one", () => {
    for (const word of Object.values(FIRST_WORDS).flat()) expect(WORD_TOKENS.has(word), word).toBe(true);
  });
});

describe("the example of every statement, which its messages show,", () => {
  const around: Record<string, (line: string) => string> = {
    file: (line) => `${line}\n`,
    area: (line) => `area "A" {\n  ${line}\n}\n`,
    studio: (line) => `studio {\n  ${line}\n}\n`,
    exercise: (line) => `exercise "A" {\n  ${line}\n}\n`,
    player: (line) => `level "A" {\n  ${line}\n}\n`,
    budget: (line) => `level "A" {\n  each week { ${line} }\n}\n`,
    term: (line) => `term "A" for "B" {\n  ${line}\n}\n`,
    asks: (line) => `term "A" for "B" {\n  lesson every Tue { ${line} }\n}\n`,
    weeks: (line) => `term "A" for "B" {\n  weeks 1 to 2 {\n    ${line}\n  }\n}\n`,
    session: (line) => `routine "A" {\n  ${line}\n}\n`,
    assignment: (line) => `routine "A" {\n  "B"  once { ${line} }\n}\n`,
    change: (line) => `term "A" for "B" {\n  change "C" {\n    ${line}\n  }\n}\n`,
    record: (line) => `record of "A" {\n  ${line}\n}\n`,
  };
  const examples = Object.entries(STATEMENTS).flatMap(([kind, statements]) =>
    [...new Set([...statements.values()].map(({ example }) => example))].map(
      (example) => [kind, example] as const,
    ),
  );

  test.each(examples)("can be read in its block: %s, %s", (kind, example) => {
    expect(messagesOf(around[kind]!(example.replace("{ … }", "{\n}")))).toEqual([]);
  });
});
