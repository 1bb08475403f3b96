/**
 * Walks through the editor as a person would and takes pictures.
 *
 *     npx tsx tests/editor/tour.ts FOLDER [oldest|newest] [light|dark|contrast|contrastLight] [workspace|browser]
 */
import { mkdir } from "node:fs/promises";
import path from "node:path";
import { editions, type Theme } from "./editions";
import { extensionId } from "./extension-id";
import { Failure } from "./failure";
import { openWorkbench } from "./open-workbench";
import { packageExtension } from "./package-extension";
import { runAsProgram } from "./run-as-program";
import { startChromium } from "./start-chromium";
import { makeTemporaryFolder } from "./temporary-folder";
import { stageTrial } from "./trial/stage-trial";
import { trialWorkspace } from "./trial/trial-workspace";
import { Ui } from "./ui";

async function main(): Promise<number> {
  const [target, ...asked] = process.argv.slice(2);
  if (target === undefined) throw new Failure("Say into which folder the pictures go.");
  const name = asked.includes("newest") ? "newest" : "oldest";
  const host = asked.includes("browser") ? "browser" : "workspace";
  const theme: Theme =
    (["light", "contrast", "contrastLight"] as const).find((one) => asked.includes(one)) ?? "dark";
  await mkdir(target, { recursive: true });
  const temporary = await makeTemporaryFolder("package");
  const browser = await startChromium();
  let passed = 0;
  let failed = 0;
  try {
    const packaged = await packageExtension(temporary.root, stageTrial);
    const workbench = await openWorkbench(browser, {
      edition: editions[name],
      host,
      ...packaged,
      workspace: trialWorkspace,
      theme,
    });
    const ui = new Ui(workbench.page);
    workbench.page.setDefaultTimeout(15_000);
    const shot = (title: string): Promise<Buffer> =>
      workbench.page.screenshot({
        path: path.join(target, `${name}-${host}-${theme}-${title}.png`),
        animations: "disabled",
      });
    const walk = async (title: string, go: () => Promise<void>): Promise<void> => {
      const begun = performance.now();
      try {
        await go();
        passed++;
        console.log(`ok      ${title} (${Math.round(performance.now() - begun)} ms)`);
      } catch (thrown) {
        failed++;
        console.log(`FAILED  ${title}: ${String(thrown)}`);
        await shot(`failed-${title.replaceAll(" ", "-")}`);
      }
    };
    try {
      await workbench.start();
      await walk("open", () => ui.ready());
      await walk("file", () => ui.openFile("week.practice"));
      await walk("status item", () => ui.statusItem(`${extensionId}.practice.status`).waitFor());
      await walk("hover", async () => {
        const hover = await ui.hover("lip_slurs", "lip_slurs from the");
        await hover.locator("img").first().waitFor();
        await shot("hover");
      });
      await walk("problems", async () => {
        await (await ui.problems()).filter({ hasText: "fuller sound" }).waitFor();
        await shot("problems");
      });
      await walk("side view", async () => {
        await (await ui.sideView("Practice Outline")).getByText("lip_slurs").waitFor();
      });
      await walk("quick fix", async () => {
        await ui.tab("week.practice").click();
        await ui.goTo(3, 8);
        await ui.quickFixes();
        await shot("fixes");
        await ui.takeFix("fuller");
        await ui.editor.getByText("play fuller here").waitFor();
      });
      await walk("rename", async () => {
        await ui.goTo(1, 3);
        await ui.rename("hymns");
        await ui.editor.getByText("hymns 10").nth(1).waitFor();
      });
      await walk("undo", async () => {
        await workbench.page.keyboard.press("Control+z");
        await ui.editor.getByText("long_tones 10").nth(1).waitFor();
      });
      await walk("type", async () => {
        await ui.goTo(1, 1);
        await workbench.page.keyboard.type("scales 7");
        await workbench.page.keyboard.press("Enter");
        await ui.editor.getByText("scales 7").waitFor();
      });
      await walk("command and toast", async () => {
        await ui.command("Practice: Say Hello");
        await ui.toasts.getByText("Hello, brass.").waitFor();
        await ui.clearToasts();
      });
      await walk("webview", async () => {
        await ui.command("Practice: Open Picture");
        const inside = await ui.webview();
        await inside.getByText("scripts run").waitFor();
      });
      await shot("end");
    } finally {
      await workbench.close();
    }
  } finally {
    await browser.close();
    await temporary.remove();
  }
  console.log(`${passed} passed, ${failed} failed`);
  return failed === 0 ? 0 : 1;
}

runAsProgram(main);
