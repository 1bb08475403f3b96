import path from "node:path";
import type { Browser } from "playwright-core";
import { type BundledSuite, bundleSuite } from "./bundle-suite";
import { type EditionName, editions } from "./editions";
import { runNeovim } from "./neovim/run-neovim";
import type { Host } from "./open-workbench";
import type { Results } from "./outcome";
import { type Packaged, packageExtension } from "./package-extension";
import { runSuite } from "./run-suite";
import { sampleWorkspace } from "./sample-workspace";
import { startChromium } from "./start-chromium";
import { makeTemporaryFolder } from "./temporary-folder";

/** The extension, packaged once, and what it is tried in. Everything is made on first use. */
export class Matrix {
  private readonly temporary = makeTemporaryFolder("package");
  private packaged: Promise<Packaged> | undefined;
  private suite: Promise<BundledSuite> | undefined;
  private browser: Promise<Browser> | undefined;

  constructor(private readonly print: (line: string) => void) {}

  /** Runs the suite in one edition and host. */
  async inVscode(name: EditionName, host: Host): Promise<Results> {
    this.suite ??= this.temporary.then(({ root }) => bundleSuite(root));
    this.browser ??= startChromium();
    const options = {
      edition: editions[name],
      host,
      ...(await this.extension()),
      workspace: sampleWorkspace,
      suite: await this.suite,
    };
    return runSuite(await this.browser, options, this.print);
  }

  /** Runs the server of the package in Neovim. */
  async inNeovim(): Promise<Results> {
    const { unpacked } = await this.extension();
    const options = {
      server: path.join(unpacked, "dist", "server.cjs"),
      workspace: sampleWorkspace,
      file: path.join("2026-27", "summer.practice"),
    };
    return runNeovim(options, this.print);
  }

  /** Ends and removes whatever was made. */
  async close(): Promise<void> {
    await (await this.browser)?.close();
    await (await this.temporary).remove();
  }

  private extension(): Promise<Packaged> {
    this.packaged ??= this.temporary.then(({ root }) => packageExtension(root));
    return this.packaged;
  }
}
