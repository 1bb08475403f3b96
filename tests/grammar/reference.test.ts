import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { format } from "../../grammar/format";
import { readSource } from "../../grammar/pieces";
import { WORD_TOKENS } from "../../grammar/tokens";
import { WORDS, wordsAtAGlance } from "../../grammar/words";
import { messagesOf, SAMPLES, SNIPPETS, STUDIO } from "./read";

const reference = readFileSync(new URL("../../grammar/REFERENCE.md", import.meta.url), "utf8");

describe("the reference's snippets", () => {
  test("are there", () => expect(SNIPPETS.length).toBeGreaterThan(10));

  test.each(SNIPPETS.map((snippet) => [snippet.split("\n")[0], snippet]))("%s", (_first, snippet = "") => {
    expect(messagesOf(snippet)).toEqual([]);
    expect(format(snippet)).toBe(snippet);
  });

  test("are one studio, read one after the other", () => {
    expect(messagesOf(STUDIO)).toEqual([]);
    expect(format(STUDIO)).toBe(STUDIO);
    const kinds = new Set(readSource(STUDIO).pieces.map(({ declaration }) => declaration?.kind));
    for (const kind of ["area", "exercise", "routine", "level", "student", "studio", "term", "record"]) {
      expect(kinds).toContain(kind);
    }
  });
});

describe("the samples", () => {
  test.each(SAMPLES.map(([path, text]) => [path, text]))("%s is read without a problem", (_path, text) => {
    expect(messagesOf(text)).toEqual([]);
  });
});

describe("words at a glance", () => {
  test("are those of the table", () => {
    const section = reference.slice(reference.indexOf("## Words at a glance"));
    expect(section).toBe(`## Words at a glance\n\n${wordsAtAGlance()}`);
  });

  test("hold every word of the language, each with a meaning", () => {
    const told = new Set(WORDS.flatMap(({ phrase }) => phrase.split(" ")));
    for (const word of WORD_TOKENS.keys()) expect(told).toContain(word);
    for (const { phrase, meaning } of WORDS) expect(meaning, phrase).not.toBe("");
  });

  test("name no phrase twice in one group", () => {
    const keys = WORDS.map(({ group, phrase }) => `${group}: ${phrase}`);
    expect(new Set(keys).size).toBe(keys.length);
  });
});
