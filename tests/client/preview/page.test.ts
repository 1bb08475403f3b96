import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import type { AxeResults } from "axe-core";
import { type Browser, chromium } from "playwright-core";
import { afterAll, afterEach, beforeAll, describe, expect, test } from "vitest";
import type { Toolkit } from "../../../server/notation/engrave";
import { findProgram } from "../../editor/find-program";
import { programs } from "../../editor/programs";
import { bundledPage, PreviewedPage, toolkit } from "./page-in-chromium";

/** Debian's Chromium; undefined where it is not installed. */
const executablePath = findProgram(programs.chromium);
const where = executablePath === undefined ? " (not checked: there is no Chromium here)" : "";

/** The levels A and AA of WCAG 2.0 to 2.2. */
const LEVELS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"];
const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

const BAR = "1/8 C4 D4 E4 F4 G4 A4 B4 C5";
const PLAN = `area "Tones"
exercise "Fifths" {
  in "Tones"  key C major  meter 4/4  tempo 1/2 = 120
  aim "the same ring on the low note as on the high"
  music { 1/2 C4 (G4 | C5 G5) ' | 1/1 C4 | }
}
exercise "Long" {
  in "Tones"  key C major  meter 4/4  tempo 1/4 = 120
  music { ${Array.from({ length: 60 }, () => BAR).join(" | ")} | }
}
exercise "Cut" {
  in "Tones"  key C major  meter 4/4
  music { 1/1 C4 | }
}
level "Seniors" {
  instrument trumpet in Bb  range G3 to C5  limit F#3 to F5  upper from C5
  each day { clock at most 1 min  playing at most 30 s  upper at most 20 s }
}
student "K. M." like "Seniors" { upper from F5 }
term "Autumn" for "Seniors" {
  from 2026-09-07 to 2026-09-20
  practice Mon to Fri
  weeks 1 to 2 {
    Mon "First" 10 min { "Fifths"  tempo 60  4 times   "Long"  once }
    Tue "Second" 10 min { "Fifths"  once }
  }
}
`;

describe.skipIf(executablePath === undefined)(`the preview's page in a browser${where}`, () => {
  let browser: Browser;
  let parts: Awaited<ReturnType<typeof bundledPage>>;
  let drawing: Toolkit;
  let shown: PreviewedPage | undefined;
  beforeAll(async () => {
    [browser, parts, drawing] = await Promise.all([
      chromium.launch({
        executablePath: executablePath ?? "",
        args: [
          "--no-sandbox",
          "--disable-gpu",
          "--disable-quic",
          "--host-resolver-rules=MAP * ~NOTFOUND",
          "--autoplay-policy=no-user-gesture-required",
        ],
      }),
      bundledPage(),
      toolkit(),
    ]);
  }, 60_000);
  afterAll(async () => {
    await browser?.close();
  });
  afterEach(async () => {
    const violations = shown?.told.filter(({ what }) => what === "violation") ?? [];
    await shown?.close();
    shown = undefined;
    expect(violations).toEqual([]);
  });

  async function open(at: string, width = 560): Promise<PreviewedPage> {
    shown = await PreviewedPage.open(browser, parts, drawing, PLAN, width);
    await shown.page.getByText("Put the cursor into an exercise").waitFor();
    await shown.at(at);
    await shown.page.locator(".page header").waitFor();
    return shown;
  }

  test.each([
    ['"Fifths" {', 560],
    ['"Fifths" {', 400],
    ['"Fifths" {', 320],
    ['Mon "First"', 560],
    ['Mon "First"', 400],
    ["weeks 1 to 2", 560],
    ["weeks 1 to 2", 400],
    ['term "Autumn"', 400],
    ['"Cut"', 560],
  ])(
    "breaks no rule of WCAG 2.2 AA that axe-core knows, and nothing sticks out: at %s, %i pixels wide",
    async (at, width) => {
      const { page } = await open(at, width);
      if (!/weeks|term|Cut/.test(at)) await page.locator(".picture > svg").first().waitFor();
      // Handed in from outside: the page lets no other script in.
      await page.evaluate(axe);
      const results = await page.evaluate<AxeResults>(
        `axe.run(document, { runOnly: ${JSON.stringify(LEVELS)} })`,
      );
      expect(results.violations.map(({ id, nodes }) => [id, nodes.map((node) => node.html)])).toEqual([]);
      expect(results.passes.map(({ id }) => id)).toContain("color-contrast");
      const [inner, whole] = await page.evaluate<[number, number]>(
        "[document.documentElement.clientWidth, document.documentElement.scrollWidth]",
      );
      expect(whole).toBeLessThanOrEqual(inner);
    },
  );

  test("goes from note to note by keys, says each in words, and Enter leads to the text", async () => {
    const { page, heard } = await open('"Fifths" {');
    await page.locator(".picture > svg").first().waitFor();
    await page.getByRole("listbox").focus();
    await page.keyboard.press("ArrowRight");
    await page.keyboard.press("ArrowRight");
    const chosen = page.locator(".notation [aria-selected=true]");
    expect(await chosen.getAttribute("aria-label")).toBe("second-line G (G4), half, open");
    expect(await page.getByRole("listbox").getAttribute("aria-activedescendant")).toBe(
      await chosen.getAttribute("id"),
    );
    await page.keyboard.press("Enter");
    await expect
      .poll(() => heard.find(({ kind }) => kind === "goTo"))
      .toMatchObject({ place: { uri: "file:///plan", range: { start: { line: 4, character: 18 } } } });
    await page.keyboard.press("End");
    expect(await chosen.getAttribute("aria-label")).toMatch(/^low C/);
  });

  test("marks the note at the cursor, and leads from a click to the text", async () => {
    const previewed = await open('"Fifths" {');
    const { page, heard } = previewed;
    await page.locator(".picture > svg").first().waitFor();
    await previewed.at("C5 G5", 1);
    await page.locator(".note.here").waitFor();
    expect(await page.locator(".note.here").getAttribute("aria-label")).toMatch(/^third-space C/);
    await page.locator(".note .field").nth(3).click();
    await expect
      .poll(() => heard.find(({ kind }) => kind === "goTo"))
      .toMatchObject({ place: { range: { start: { character: 26 } } } });
  });

  test("shows the last picture until the next one is there", async () => {
    const previewed = await open('"Fifths" {');
    const { page } = previewed;
    const picture = page.locator(".picture").first();
    await picture.locator("> svg").waitFor();
    const before = await picture.innerHTML();
    previewed.holdPictures = true;
    previewed.write(PLAN.replace("1/2 C4 (G4", "1/2 C4 (A4"));
    const asked = (): number =>
      previewed.heard.filter((each) => each.kind === "ask" && each.request === "leadpipe/picture").length;
    const soFar = asked();
    await previewed.at('"Fifths" {');
    await expect.poll(asked).toBeGreaterThan(soFar);
    expect(await picture.innerHTML()).toBe(before);
    previewed.release();
    await expect.poll(() => picture.innerHTML()).toContain("second-space A (A4)");
  });

  test("asks for the one line that changed, and for lines only when they come near", async () => {
    const previewed = await open('"Long"');
    const { page } = previewed;
    const asked = (): readonly unknown[] =>
      previewed.heard.flatMap((each) =>
        each.kind === "ask" && each.request === "leadpipe/picture" ? [each.params] : [],
      );
    await expect.poll(() => page.locator(".picture > svg").count()).toBeGreaterThan(4);
    const lines = await page.locator(".picture").count();
    expect(asked().length).toBeLessThan(lines);
    const before = asked().length;
    previewed.write(PLAN.replace(`music { ${BAR}`, `music { ${BAR.replace("C5", "D5")}`));
    await previewed.at('"Long"');
    await expect.poll(() => page.locator(".picture").first().innerHTML()).toContain("fourth-line D");
    expect(asked().length).toBe(before + 1);
  });

  test("changes key, player and fingerings in place, and leaves the text alone", async () => {
    const { page, heard } = await open('"Fifths" {');
    await page.locator(".picture > svg").first().waitFor();
    const key = page.getByRole("combobox", { name: /^Key/ });
    const g = await key.getByRole("option", { name: /^G major/ }).getAttribute("value");
    await key.selectOption(g);
    await expect.poll(() => page.getByRole("listbox").getAttribute("aria-label")).toMatch(/^Fifths, G major/);
    await page.getByLabel("Fingerings").check();
    // Low G is played with first and third.
    await expect.poll(() => page.locator(".picture").first().textContent()).toMatch(/13/);
    await expect.poll(() => page.locator(".legend").textContent()).toMatch(/upper register/);
    await page.getByRole("combobox", { name: /^For/ }).selectOption("K. M.");
    await expect.poll(() => page.locator(".legend").textContent()).not.toMatch(/upper register/);
    expect(heard.every(({ kind }) => kind === "ask" || kind === "leave" || kind === "ready")).toBe(true);
  });

  test("is heard: notes are marked by the clock of the sound, and it stops", async () => {
    const previewed = await open('"Fifths" {');
    const { page, told } = previewed;
    await page.locator(".picture > svg").first().waitFor();
    await page.getByLabel("Count in").uncheck();
    await page.getByRole("button", { name: "Play" }).click();
    const sounding = () => told.flatMap((each) => (each.what === "sounding" ? [each] : []));
    await expect.poll(() => sounding().length, { timeout: 10_000 }).toBeGreaterThanOrEqual(5);
    expect(
      sounding()
        .slice(0, 5)
        .map(({ event }) => event),
    ).toEqual([0, 1, 2, 3, 4]);
    for (const { at, clock } of sounding()) {
      expect(clock).toBeGreaterThanOrEqual(at);
      expect(clock - at).toBeLessThan(0.25);
    }
    await expect.poll(() => told.some(({ what }) => what === "stopped"), { timeout: 10_000 }).toBe(true);
    await expect.poll(() => page.locator(".now").count()).toBe(0);
  });

  test("gives the player a turn after each phrase", async () => {
    const previewed = await open('"Fifths" {');
    const { page, told } = previewed;
    await page.locator(".picture > svg").first().waitFor();
    await page.getByLabel("Count in").uncheck();
    await page.getByLabel("First the tool, then you").check();
    await page.getByRole("button", { name: "Play" }).click();
    await page.getByText("Your turn").waitFor();
    expect(told.find((each) => each.what === "sounding" && each.yours)).toMatchObject({ event: 0, at: 2 });
    await page.getByRole("button", { name: "Stop" }).click();
    await page.getByRole("button", { name: "Play" }).waitFor();
  });

  test("says what is missing, with the way to it", async () => {
    const { page, heard } = await open('"Cut"');
    const list = page.getByRole("list", { name: "What is missing" });
    expect(await list.textContent()).toMatch(/tempo/);
    await list.getByRole("button").first().click();
    await expect.poll(() => heard.some(({ kind }) => kind === "goTo")).toBe(true);
  });

  test("shows the week that is chosen of several", async () => {
    const { page } = await open("weeks 1 to 2");
    await page.getByRole("combobox", { name: /^Week/ }).selectOption("2");
    await page.getByRole("heading", { name: "Week 2" }).waitFor();
  });

  test("stays where it is while it is told not to go along", async () => {
    const previewed = await open('"Fifths" {');
    const { page } = previewed;
    await page.getByLabel("Go along with the cursor").uncheck();
    await previewed.at("weeks 1 to 2");
    await page.getByLabel("Go along with the cursor").check();
    await page.getByRole("heading", { name: "Week 1" }).waitFor();
  });
});
