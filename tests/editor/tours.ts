import { mkdir } from "node:fs/promises";
import path from "node:path";
import type { Page } from "playwright-core";
import { type EditionName, editions, type Theme } from "./editions";
import { Failure } from "./failure";
import { type Host, openWorkbench, type Workbench } from "./open-workbench";
import { packageExtension } from "./package-extension";
import { sampleWorkspace } from "./sample-workspace";
import { startChromium } from "./start-chromium";
import { makeTemporaryFolder } from "./temporary-folder";
import { Ui } from "./ui";

/** What all walks through an editor share: which one, step by step, with pictures, and a line that counts. */

/** All that an editor is looked at in. */
export const THEMES: readonly Theme[] = ["light", "dark", "contrast", "contrastLight"];

/** What a walk was asked for. */
export interface TourOptions {
  readonly name: EditionName;
  readonly host: Host;
  /** As asked for, in one order; none where none was. */
  readonly themes: readonly Theme[];
  /** The folder that the pictures go into. */
  readonly target: string;
}

/** What the words on the command line ask for; the folder is made. */
export async function tourOptions(words: readonly string[]): Promise<TourOptions> {
  const [target, ...asked] = words;
  if (target === undefined) throw new Failure("Say into which folder the pictures go.");
  await mkdir(target, { recursive: true });
  return {
    name: asked.includes("newest") ? "newest" : "oldest",
    host: asked.includes("browser") ? "browser" : "workspace",
    themes: THEMES.filter((theme) => asked.includes(theme)),
    target,
  };
}

/** The steps of a walk, each counted; one that fails keeps none from being tried. */
class Steps {
  private passed = 0;
  private failed = 0;

  /** Goes one step. `missed` is called where it fails. */
  async go(title: string, step: () => Promise<void>, missed: () => Promise<unknown>): Promise<void> {
    const begun = performance.now();
    try {
      await step();
      this.passed++;
      console.log(`ok      ${title} (${Math.round(performance.now() - begun)} ms)`);
    } catch (thrown) {
      this.failed++;
      console.log(`FAILED  ${title}: ${String(thrown)}`);
      await missed();
    }
  }

  /** Says how many passed; the number to end with. */
  close(): number {
    console.log(`${this.passed} passed, ${this.failed} failed`);
    return this.failed === 0 ? 0 : 1;
  }
}

/** One look at the editor: the sample studio, or another folder, open in one theme. */
export interface Scene {
  readonly workbench: Workbench;
  readonly page: Page;
  readonly ui: Ui;
  /** Takes a picture, named after the editor, the theme and what it shows. */
  readonly shot: (title: string) => Promise<Buffer>;
  /** Goes one step; a picture is taken where it fails. */
  readonly walk: (title: string, step: () => Promise<void>) => Promise<void>;
  /** Fails where a page has done what its policy forbids. */
  readonly keepsPolicy: () => Promise<void>;
}

/** What a walk may ask for, beyond what the words on the command line say. */
export interface Round {
  /** One look in each of these. */
  readonly themes: readonly Theme[];
  /** The folder that is opened; the sample studio where none is given. It is handed one for its own files. */
  readonly workspace?: (temporary: string) => Promise<string>;
}

/**
 * Packages the extension, opens the editor once in each theme, and clears everything away. The number to end with:
 * 0 where all steps passed.
 */
export async function tour(
  { name, host, target }: TourOptions,
  { themes, workspace }: Round,
  look: (scene: Scene, theme: Theme) => Promise<void>,
): Promise<number> {
  const steps = new Steps();
  const temporary = await makeTemporaryFolder("package");
  const browser = await startChromium();
  try {
    const packaged = await packageExtension(temporary.root);
    const folder = (await workspace?.(path.join(temporary.root, "studio"))) ?? sampleWorkspace;
    for (const theme of themes) {
      const workbench = await openWorkbench(browser, {
        edition: editions[name],
        host,
        ...packaged,
        workspace: folder,
        theme,
      });
      const { page } = workbench;
      page.setDefaultTimeout(15_000);
      const broken: string[] = [];
      page.on("console", (message) => {
        if (/content security policy|refused to/i.test(message.text())) broken.push(message.text());
      });
      const shot = (title: string): Promise<Buffer> =>
        page.screenshot({
          path: path.join(target, `${name}-${host}-${theme}-${title}.png`),
          animations: "disabled",
        });
      const ui = new Ui(page);
      const walk: Scene["walk"] = (title, step) =>
        steps.go(`${theme}: ${title}`, step, () => shot(`failed-${title.replaceAll(/\W+/g, "-")}`));
      const keepsPolicy = async (): Promise<void> => {
        if (broken.length > 0) throw new Failure(broken.join("\n"));
      };
      try {
        await workbench.start();
        await walk("open", () => ui.ready());
        await look({ workbench, page, ui, shot, walk, keepsPolicy }, theme);
      } finally {
        await workbench.close();
      }
    }
  } finally {
    await browser.close();
    await temporary.remove();
  }
  return steps.close();
}
