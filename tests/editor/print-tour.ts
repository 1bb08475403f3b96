/**
 * Prints as a person would, from the command to the pages, and takes pictures: the questions, how far it is, what is
 * offered afterwards, and what is left where it was cancelled.
 *
 *     npx tsx tests/editor/print-tour.ts FOLDER [oldest|newest] [workspace|browser] [light|dark|contrast|contrastLight]
 */
import { runAsProgram } from "./run-as-program";
import { tour, tourOptions } from "./tours";

/** A line of the first-years' term: the plan's shortest pages. */
const LINE = 20;
/** Milliseconds that pages may take on a busy machine. */
const PATIENCE_MS = 60_000;

async function main(): Promise<number> {
  const options = await tourOptions(process.argv.slice(2));
  const { host, themes } = options;
  const [theme = "dark"] = themes;
  return tour(options, { themes: [theme] }, async ({ page, ui, shot, walk }) => {
    await walk("a week is asked for", async () => {
      await ui.openFile("summer.practice", "2026-27/summer.practice");
      await ui.goTo(LINE, 7);
      await ui.beginCommand("Leadpipe: Print a Week");
      await ui.choice("L. F.").waitFor();
      await shot("whose");
      await ui.choice("L. F.").click();
      await ui.choice("Week of Monday 12 April 2027").waitFor();
      await shot("which");
      await ui.choice("Week of Monday 12 April 2027").click();
      await ui.choice("US Letter").waitFor();
      await shot("paper");
      await page.keyboard.press("Enter");
    });
    await walk("it is saved, and looked at", async () => {
      await ui.question("Save the Pages").waitFor({ timeout: PATIENCE_MS });
      await shot("save");
      await page.keyboard.press("Enter");
      const written = ui.toast("Written: L. F., week of 2027-04-12");
      await written.waitFor();
      await shot("written");
      // Only web pages are shown in the editor itself.
      await ui.answer(written, host === "browser" ? "Open" : "Show in Folder");
      if (host === "browser")
        await page.getByRole("tab", { name: "L. F., week of 2027-04-12.html" }).waitFor();
      await shot("shown");
    });
    await walk("a packet is cancelled, and nothing is asked any more", async () => {
      await ui.tab("summer.practice").click();
      await ui.beginCommand("Leadpipe: Print a Packet");
      await ui.choice("The book").click();
      await ui.choice("All keys").click();
      await ui.choice("US Letter").click();
      const telling = ui.toast("pictures engraved");
      await telling.waitFor();
      await shot("progress");
      await ui.answer(telling, "Cancel");
      await telling.waitFor({ state: "detached" });
      await shot("cancelled");
    });
  });
}

runAsProgram(main);
