import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import type { AxeResults } from "axe-core";
import { type Browser, chromium } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { CAUTION } from "../../../server/output/totals-text";
import { termReport } from "../../../server/pages/term-report";
import { findProgram } from "../../editor/find-program";
import { programs } from "../../editor/programs";
import { Folder } from "../cli/command";
import { FIRST_AUTUMN, SECOND_AUTUMN } from "../compare/story";
import { planOf, termOf } from "../plan-of";
import { BUSY } from "./busy-term";

/** Debian's Chromium; undefined where it is not installed. */
const executablePath = findProgram(programs.chromium);
const where = executablePath === undefined ? " (not checked: there is no Chromium here)" : "";

const plan = planOf(BUSY);
const page = termReport({
  terms: [termOf(plan, "K. M."), termOf(plan, "Seniors")],
  caution: CAUTION,
  history: { method: "coupled", caution: "None has been tried on brass players." },
});
/** A comparison with notation in it, as the command writes it. */
function comparison(): string {
  const folder = new Folder({ "a.practice": FIRST_AUTUMN, "b.practice": SECOND_AUTUMN });
  try {
    expect(folder.run(["compare", "a.practice", "b.practice", "--html", "page.html"]).code).toBe(0);
    return readFileSync(join(folder.path, "page.html"), "utf8");
  } finally {
    folder.remove();
  }
}

/** The levels A and AA of WCAG 2.0 to 2.2. */
const LEVELS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"];

describe.skipIf(executablePath === undefined)(`the report in a browser${where}`, () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await chromium.launch({
      executablePath: executablePath ?? "",
      args: ["--no-sandbox", "--disable-gpu", "--disable-quic", "--host-resolver-rules=MAP * ~NOTFOUND"],
    });
  }, 60_000);
  afterAll(async () => {
    await browser?.close();
  });

  test.each([
    ["the report", 1280],
    ["the report", 400],
    ["a comparison", 1280],
    ["a comparison", 400],
  ] as const)(
    "%s breaks no rule of WCAG 2.2 AA that axe-core knows, %i pixels wide",
    async (which, width) => {
      const context = await browser.newContext({ viewport: { width, height: 900 } });
      const tab = await context.newPage();
      await tab.setContent(which === "the report" ? page : comparison());
      // Handed in from outside: the page itself allows no scripts.
      await tab.evaluate(readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8"));
      const results = await tab.evaluate<AxeResults>(
        `axe.run(document, { runOnly: ${JSON.stringify(LEVELS)} })`,
      );
      expect(results.violations.map(({ id, nodes }) => [id, nodes.map((node) => node.html)])).toEqual([]);
      // It did look: names of pictures, contrast, the size of what is touched.
      const passed = results.passes.map((each) => each.id);
      expect(passed).toEqual(expect.arrayContaining(["svg-img-alt", "color-contrast", "html-has-lang"]));
      expect(passed.includes("target-size")).toBe(which === "the report");
      await context.close();
    },
    60_000,
  );

  test("without scripts shows everything, and nothing sticks out on a telephone", async () => {
    const context = await browser.newContext({
      javaScriptEnabled: false,
      viewport: { width: 400, height: 900 },
    });
    const tab = await context.newPage();
    await tab.setContent(page);
    expect(await tab.locator("svg").count()).toBe(page.match(/<svg /g)?.length);
    expect(await tab.locator("table").first().isVisible()).toBe(true);
    for (const part of await tab.locator("main > *, section > *, svg").all()) {
      const box = await part.boundingBox();
      expect((box?.x ?? 0) + (box?.width ?? 0)).toBeLessThanOrEqual(400);
    }
    await context.close();
  }, 60_000);

  test("is printed on paper, each term from a page of its own", async () => {
    const context = await browser.newContext({ javaScriptEnabled: false });
    const tab = await context.newPage();
    await tab.setContent(page);
    const pdf = (await tab.pdf({ format: "A4" })).toString("latin1");
    const pages = pdf.match(/\/Type\s*\/Page\b/g)?.length ?? 0;
    expect(pages).toBeGreaterThanOrEqual(2);
    await context.close();
  }, 60_000);
});
