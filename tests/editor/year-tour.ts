/**
 * Looks at the pages about a term as a person would: takes pictures of report, comparison and what a new term leaves
 * out in every theme asked for, and looks in each page for what keeps people out and for what its policy forbade.
 *
 *     npx tsx tests/editor/year-tour.ts FOLDER [oldest|newest] [workspace|browser] [light] [dark] [contrast] [contrastLight]
 */
import { cp, readFile, rm, writeFile } from "node:fs/promises";
import path from "node:path";
import type { Frame } from "playwright-core";
import { audit } from "./audit";
import { Failure } from "./failure";
import { runAsProgram } from "./run-as-program";
import { sampleWorkspace } from "./sample-workspace";
import { THEMES, tour, tourOptions } from "./tours";

async function main(): Promise<number> {
  const options = await tourOptions(process.argv.slice(2));
  const themes = options.themes.length > 0 ? options.themes : THEMES;
  const round = { themes, workspace: withLastYear };
  return tour(options, round, async ({ workbench, page, ui, shot, walk, keepsPolicy }) => {
    const looked = async (title: string, inside: Frame): Promise<void> => {
      await shot(title);
      await audit(title, inside);
    };
    await walk("the summer's plan", async () => {
      await ui.openFile("summer.practice", "2026-27/summer.practice");
      await ui.command("View: Toggle Primary Side Bar Visibility");
      await ui.goTo(TERM_LINE, 4);
    });
    await walk("the report", async () => {
      await ui.command("Leadpipe: Show the Term's Report");
      const inside = await ui.webview();
      await inside.getByRole("heading", { name: "Week by week" }).waitFor();
      await looked("report", inside);
      await inside.getByRole("heading", { name: "Areas and days" }).scrollIntoViewIfNeeded();
      await shot("report-areas");
      await inside.getByRole("heading", { name: "Registers and weeks" }).scrollIntoViewIfNeeded();
      await shot("report-registers");
      await page.keyboard.press("Control+w");
    });
    await walk("a comparison", async () => {
      await ui.tab("summer.practice").click();
      await ui.goTo(TERM_LINE, 4);
      await ui.command("Leadpipe: Compare with Another File or Folder…");
      const input = page.locator(".quick-input-widget input[type=text]");
      // The dialog fills in where it is once it has looked there.
      await page.locator(".quick-input-widget .monaco-list-row", { hasText: "spring.practice" }).waitFor();
      await input.fill(path.join(workbench.folder, "last-year", "2026-27", "summer.practice"));
      await page.locator(".quick-input-widget").getByRole("button", { name: "Compare" }).click();
      const inside = await ui.webview();
      await inside.getByRole("heading", { name: "The exercise book" }).waitFor();
      await looked("comparison", inside);
      // With room enough the two stand side by side.
      await page.setViewportSize({ width: 2000, height: 800 });
      await shot("comparison-wide");
      await page.setViewportSize({ width: 1280, height: 800 });
      await inside.getByRole("heading", { name: "Week by week" }).first().scrollIntoViewIfNeeded();
      await shot("comparison-weeks");
      await page.keyboard.press("Control+w");
    });
    await walk("a new term", async () => {
      await ui.tab("summer.practice").click();
      await ui.goTo(TERM_LINE, 4);
      await ui.command("Leadpipe: Start a Term from This One…");
      const box = page.locator(".quick-input-widget");
      const input = box.locator("input[type=text]");
      const answers = ["2028-04-24", "2028-07-14", "2028-05-29 to 2028-06-02 half-term"];
      for (const [step, answer] of answers.entries()) {
        await box.getByText(`${step + 1} of 4`).waitFor();
        // The editor fills in what it proposes before it lets anybody type.
        await box.locator("input[type=text]:focus").waitFor();
        await input.fill("not a day");
        const refusal = box.getByText(/^(A date|Days) such as/).first();
        await refusal.waitFor();
        await input.fill(answer);
        await refusal.waitFor({ state: "hidden" });
        if (step === 2) await shot("new-term-asks");
        await input.press("Enter");
      }
      await box.getByText("Leave them out").click();
      const inside = await ui.webview();
      await inside.getByRole("heading", { name: "What was left out" }).waitFor();
      await looked("new-term", inside);
    });
    await walk("no policy was broken", keepsPolicy);
  });
}

/** The line of the seniors' term in its plan, from 1. */
const TERM_LINE = 179;

/** The sample studio, and in a folder of it the same with other notes, tempi and days. */
async function withLastYear(folder: string): Promise<string> {
  await cp(sampleWorkspace, folder, { recursive: true });
  const last = path.join(folder, "last-year");
  await cp(sampleWorkspace, last, { recursive: true });
  await rm(path.join(last, "2025-26"), { recursive: true, force: true });
  const change = async (
    name: string,
    changes: readonly (readonly [string | RegExp, string])[],
  ): Promise<void> => {
    const file = path.join(last, name);
    let text = await readFile(file, "utf8");
    for (const [old, fresh] of changes) {
      const changed = text.replaceAll(old, fresh);
      if (changed === text) throw new Failure(`“${old}” is not in ${name}`);
      text = changed;
    }
    await writeFile(file, text);
  };
  await change("book.practice", [[/E4 F4 G4/g, "E4 G4 F4"]]);
  await change("2026-27/summer.practice", [[/for 10 min/g, "for 6 min"]]);
  return folder;
}

runAsProgram(main);
