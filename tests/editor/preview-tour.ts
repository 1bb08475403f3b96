/**
 * Looks at the music in the editor as a person would: takes pictures of hover and preview in every theme asked for,
 * and holds the page against its own policy and against WCAG 2.2 AA, as far as axe-core can tell.
 *
 *     npx tsx tests/editor/preview-tour.ts FOLDER [oldest|newest] [workspace|browser] [light] [dark] [contrast] [contrastLight]
 */
import { readFile } from "node:fs/promises";
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
  return tour(options, { themes }, async ({ ui, shot, walk, keepsPolicy }) => {
    let inside: Frame | undefined;
    const audited = async (title: string): Promise<void> => {
      if (inside === undefined) throw new Failure("the preview is not open");
      await audit(title, inside);
    };
    await walk("the book", () => ui.openFile("book.practice", "book.practice"));
    await walk("an exercise", async () => {
      await ui.command("View: Toggle Primary Side Bar Visibility");
      await ui.goTo(await lineOf("Hilltop"), 14);
      await ui.command("Leadpipe: Show the Music Beside");
      inside = await ui.webview();
      await inside.getByRole("heading", { name: "Hilltop" }).waitFor();
      await inside.locator(".picture:first-child > svg").waitFor();
      await shot("exercise");
      await audited("exercise");
    });
    await walk("listening", async () => {
      await inside?.getByLabel("Fingerings").check();
      await inside?.getByRole("button", { name: "Play" }).click();
      await inside?.locator(".note.now").waitFor();
      await shot("listening");
      await inside?.getByRole("button", { name: "Stop" }).click();
      await inside?.getByLabel("Fingerings").uncheck();
    });
    await walk("a session", async () => {
      // A file opens where one is.
      await ui.tab("book.practice").click();
      await ui.openFile("summer.practice", "2026-27/summer.practice");
      await ui.goTo(19, 18);
      await inside?.getByRole("heading", { name: "First page" }).waitFor();
      await inside?.locator(".picture svg").first().waitFor();
      await shot("session");
      await audited("session");
    });
    await walk("a week", async () => {
      await ui.goTo(207, 4);
      await inside?.getByRole("heading", { name: /^Week/ }).waitFor();
      await shot("week");
      await audited("week");
    });
    await walk("a term", async () => {
      await ui.goTo(179, 4);
      await inside?.getByRole("heading", { name: "Summer 2027, seniors" }).waitFor();
      await shot("term-chart");
      await audited("term");
    });
    await walk("a hover", async () => {
      await ui.goTo(275, 12);
      await inside?.getByRole("heading", { name: "From the bridge" }).waitFor();
      const hover = await ui.hover("From the bridge", "Long tones");
      await hover.locator("img").first().waitFor();
      await shot("hover");
    });
    await walk("no policy was broken", keepsPolicy);
  });
}

/** The line of the book, from 1, on which an exercise begins. */
async function lineOf(exercise: string): Promise<number> {
  const text = await readFile(path.join(sampleWorkspace, "book.practice"), "utf8");
  const at = text.indexOf(`exercise "${exercise}"`);
  if (at < 0) throw new Failure(`There is no exercise "${exercise}" in the book.`);
  return text.slice(0, at).split("\n").length;
}

runAsProgram(main);
