/**
 * Walks through the editor as a person would and takes pictures.
 *
 *     npx tsx tests/editor/tour.ts FOLDER [oldest|newest] [light|dark|contrast|contrastLight] [workspace|browser]
 */
import { extensionId } from "./extension-id";
import { runAsProgram } from "./run-as-program";
import { tour, tourOptions } from "./tours";

/** What the tour changes: the key of a Tuesday evening, and where it stands in its file. */
const LINE = 275;
const KEY_COLUMN = 29;

async function main(): Promise<number> {
  const options = await tourOptions(process.argv.slice(2));
  const theme = options.themes.find((one) => one !== "dark") ?? "dark";
  return tour(options, { themes: [theme] }, async ({ page, ui, shot, walk }) => {
    const suggestions = page.locator(".suggest-widget.visible .monaco-list-row");
    const marks = ui.editor.locator(".squiggly-warning");
    await walk("a plan is opened, and the extension with it", async () => {
      await ui.openFile("summer.practice", "2026-27/summer.practice");
      await ui.statusItem(`${extensionId}.leadpipe.day`).waitFor();
    });
    await walk("the side view", async () => {
      await ui.goTo(LINE, 7);
      await ui.command("Leadpipe: Show the Term");
      await ui.sideRows.filter({ hasText: "Week 3" }).waitFor();
      await ui.sideRows.filter({ hasText: "Week 11" }).click();
      await page.keyboard.press("ArrowRight");
      await ui.sideRows.filter({ hasText: "Tue 29 Jun" }).waitFor();
      await ui.tab("summer.practice").click();
      await ui.goTo(LINE, 7);
      await ui.statusItem(`${extensionId}.leadpipe.day`).getByText("Tue").waitFor();
      await shot("term");
    });
    await walk("a key is raised, and the day is marked", async () => {
      await ui.goTo(LINE, KEY_COLUMN);
      await page.keyboard.press("Delete");
      await page.keyboard.type("F");
      await suggestions.first().waitFor();
      await page.keyboard.press("Escape");
      await suggestions.first().waitFor({ state: "hidden" });
      await marks.first().waitFor();
      await ui.statusItem(`${extensionId}.leadpipe.day`).getByText("over").waitFor();
      await ui.sideRows.filter({ hasText: "Tue 29 Jun" }).filter({ hasText: "over" }).waitFor();
      await shot("marked");
    });
    await walk("a hover", async () => {
      await ui.hover("From the bridge", "5:28");
      await shot("hover");
      await page.keyboard.press("Escape");
    });
    await walk("the mends that are offered", async () => {
      await ui.goTo(LINE, 12);
      const rows = await ui.quickFixes();
      await rows.filter({ hasText: "E major" }).waitFor();
      await shot("mends");
      await ui.takeFix("E major");
      await marks.first().waitFor({ state: "hidden" });
    });
    await walk("undo brings the mark back", async () => {
      await page.keyboard.press("Control+z");
      await marks.first().waitFor();
      await shot("undone");
    });
    await walk("the problems", async () => {
      await (await ui.problems()).filter({ hasText: "upper register" }).first().waitFor();
      await shot("problems");
      await page.keyboard.press("Control+j");
    });
    await walk("what can stand here", async () => {
      await ui.goTo(LINE, 200);
      await page.keyboard.press("Enter");
      await page
        .locator(".statusbar")
        .getByText(`Ln ${LINE + 1}`)
        .waitFor();
      // As fast as a hand types: an editor drops what it was asking for when letters come within the same moment.
      await page.keyboard.type('"La', { delay: 150 });
      await suggestions.first().waitFor();
      await shot("completion");
      await page.keyboard.press("Escape");
      await page.keyboard.press("Control+z");
    });
    await walk("the status menu", async () => {
      await ui.statusItem(`${extensionId}.leadpipe.day`).click();
      await page.locator(".quick-input-widget .monaco-list-row", { hasText: "Restart checking" }).waitFor();
      await shot("menu");
      await page.keyboard.press("Escape");
    });
    await walk("first steps", async () => {
      await ui.command("Leadpipe: First Steps");
      await page.getByText("Start a studio").first().waitFor();
      await shot("first-steps");
    });
    await walk("a new studio begins to ask", async () => {
      await ui.command("Leadpipe: Start a New Studio");
      await page.locator(".quick-input-widget", { hasText: "What do you call the level?" }).waitFor();
      await shot("new-studio");
      await page.keyboard.press("Escape");
    });
  });
}

runAsProgram(main);
