import { mkdir } from "node:fs/promises";
import path from "node:path";
import type { Browser, Page } from "playwright-core";
import type { EditionName, Theme } from "./editions";
import { Failure } from "./failure";
import type { Host } from "./open-workbench";
import { type Packaged, packageExtension } from "./package-extension";
import { startChromium } from "./start-chromium";
import { makeTemporaryFolder } from "./temporary-folder";

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
export class Steps {
  private passed = 0;
  private failed = 0;

  /** Goes one step. `missed` is called where it fails. */
  async go(title: string, step: () => Promise<void>, missed?: () => Promise<unknown>): Promise<void> {
    const begun = performance.now();
    try {
      await step();
      this.passed++;
      console.log(`ok      ${title} (${Math.round(performance.now() - begun)} ms)`);
    } catch (thrown) {
      this.failed++;
      console.log(`FAILED  ${title}: ${String(thrown)}`);
      await missed?.();
    }
  }

  /** Says how many passed; the number to end with. */
  close(): number {
    console.log(`${this.passed} passed, ${this.failed} failed`);
    return this.failed === 0 ? 0 : 1;
  }
}

/** Takes pictures of a page, named after the editor, the theme and what they show. */
export function camera(
  page: Page,
  { target, name, host }: TourOptions,
  theme: Theme,
): (title: string) => Promise<Buffer> {
  return (title) =>
    page.screenshot({
      path: path.join(target, `${name}-${host}-${theme}-${title}.png`),
      animations: "disabled",
    });
}

/** Packages the extension and starts a browser for a walk, and clears both away. */
export async function onTour(work: (packaged: Packaged, browser: Browser) => Promise<void>): Promise<void> {
  const temporary = await makeTemporaryFolder("package");
  const browser = await startChromium();
  try {
    await work(await packageExtension(temporary.root), browser);
  } finally {
    await browser.close();
    await temporary.remove();
  }
}
