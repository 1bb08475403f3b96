import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { Results } from "./outcome";
import { Matrix } from "./run-matrix";
import { NEOVIM_CHECKS, STORIES } from "./suite/stories";

/**
 * The packaged extension in real editors, as part of the ordinary run. Each story is a test of its own, so that one
 * that never came is missed; what the suites print goes to the terminal as it comes.
 */

/** Starting an editor and going through all stories takes about twenty seconds; a busy machine is given more. */
const LIMIT_MS = 150_000;

const matrix = new Matrix((line) => process.stdout.write(`${line}\n`));
afterAll(() => matrix.close());

function expectAll(titles: readonly string[], run: () => Promise<Results>): void {
  let results: Results = new Map();
  beforeAll(async () => {
    results = await run();
  }, LIMIT_MS);
  test.each([...titles, "runs to its end"])("%s", (title) => {
    if (title === "runs to its end") expect(results.get(title)).toBeUndefined();
    else expect(results.has(title) ? (results.get(title) ?? "passed") : "never came").toBe("passed");
  });
}

for (const edition of ["oldest", "newest"] as const) {
  for (const host of ["workspace", "browser"] as const) {
    describe(`VS Code, ${edition}, in the ${host}'s host`, () => {
      expectAll(STORIES, () => matrix.inVscode(edition, host));
    });
  }
}

describe("Neovim", () => {
  expectAll(NEOVIM_CHECKS, () => matrix.inNeovim());
});
