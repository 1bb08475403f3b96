import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import manifest from "../../package.json";
import { VERB_NAMES } from "../../server/commands/help";
import { checkTexts } from "../server/check-texts";
import { blocksOf, consoleOf, wordsOf } from "./blocks";
import { leadpipe } from "./leadpipe";

/**
 * Everything the README shows is run. `UPDATE_DOCS=1 npx vitest run --config tests/vitest.config.ts tests/docs`
 * writes what the commands print into it; read the difference before it is kept.
 */

const ROOT = fileURLToPath(new URL("../..", import.meta.url));
const README = join(ROOT, "README.md");
const readme = readFileSync(README, "utf8");
const blocks = blocksOf(readme);
const plans = blocks.filter((block) => block.language === "practice").map((block) => block.text);
const [first = "", ...introduction] = plans;
const consoles = blocks.filter((block) => block.language === "console");
const updating = process.env["UPDATE_DOCS"] === "1";

/** A folder such as a reader has it: the first plan beside the sample studio. */
let folder = "";

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "leadpipe-readme-"));
  writeFileSync(join(folder, "first.practice"), first);
  cpSync(join(ROOT, "samples"), join(folder, "samples"), { recursive: true });
});

afterAll(async () => {
  if (updating) {
    let text = readme;
    for (const block of consoles.toReversed()) {
      const { command } = consoleOf(block);
      const printed = (await leadpipe(wordsOf(command).slice(1), folder)).text;
      text = `${text.slice(0, block.start)}$ ${command}\n${printed}${text.slice(block.end)}`;
    }
    writeFileSync(README, text);
  }
  rmSync(folder, { recursive: true, force: true });
});

function findingsOf(text: string) {
  return checkTexts(new Map([["plan.practice", text]])).files.flatMap((file) => file.findings);
}

describe("the first plan", () => {
  test("has ten lines", () => {
    expect(first.trimEnd().split("\n")).toHaveLength(10);
  });

  test("has the one error that the text speaks of", () => {
    const errors = findingsOf(first).filter((finding) => finding.severity === "error");
    expect(errors.map((finding) => finding.code)).toEqual(["outside-limit"]);
    expect(errors[0]?.dates).toHaveLength(3);
  });

  test("is mended by the change that the text asks for", () => {
    const mended = first.replace("to Eb", "to Gb");
    expect(mended).not.toBe(first);
    expect(findingsOf(mended).filter((finding) => finding.severity !== "note")).toEqual([]);
  });
});

test("the introduction's examples are one studio without a warning", () => {
  const said = findingsOf(introduction.join("\n")).filter((finding) => finding.severity !== "note");
  expect(said.map((finding) => finding.message)).toEqual([]);
});

describe.skipIf(updating)("what the commands print", () => {
  test.each(consoles.map(consoleOf))("$command", async ({ command, printed }) => {
    const [name, ...words] = wordsOf(command);
    expect(name).toBe("leadpipe");
    const { text } = await leadpipe(words, folder);
    expect(printed).toBe(text);
  });
});

describe("the commands named", () => {
  const named = [...readme.matchAll(/\bnpm (?:run )?([a-z]+)/g)].map((match) => match[1] ?? "");
  const own = new Set(["ci", "link"]);

  test("npm knows every script", () => {
    expect(named).toContain("start");
    expect(named).toContain("test");
    for (const script of named) {
      if (!own.has(script)) expect(Object.keys(manifest.scripts), `npm ${script}`).toContain(script);
    }
  });

  test("what npm start runs is what the README shows", () => {
    const start = manifest.scripts.start
      .split(" && ")
      .map((each) => each.replace("node dist/leadpipe.cjs", "leadpipe"));
    const shown = consoles.map((block) => consoleOf(block).command);
    expect(start[0]).toBe("npm run --silent build:cli");
    expect(shown).toContain(start[1]);
    expect(shown).toContain(start[2]);
  });

  test("leadpipe knows every verb, and the README shows them all", () => {
    const verbs = [...readme.matchAll(/(?:^|[$`]\s?)leadpipe ([a-z]+)/gm)].map((match) => match[1] ?? "");
    for (const verb of verbs) expect(VERB_NAMES, verb).toContain(verb);
    for (const verb of VERB_NAMES) if (verb !== "version") expect(verbs, verb).toContain(verb);
  });
});
