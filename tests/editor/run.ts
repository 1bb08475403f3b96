/**
 * Runs the checks inside real editors: the suite in each edition of VS Code, in both extension hosts, and Neovim.
 *
 *     npm run test:editor -- [oldest] [newest] [workspace] [browser] [neovim]
 *
 * Words pick: an edition or a host leaves out the others and Neovim, `neovim` by itself leaves out VS Code.
 */
import path from "node:path";
import { type BundledSuite, bundleSuite } from "./bundle-suite";
import { editions } from "./editions";
import { Failure } from "./failure";
import { runNeovim } from "./neovim/run-neovim";
import type { Outcome } from "./outcome";
import { type Packaged, packageExtension } from "./package-extension";
import { runAsProgram } from "./run-as-program";
import { runSuite } from "./run-suite";
import { startChromium } from "./start-chromium";
import { makeTemporaryFolder } from "./temporary-folder";
import { stageTrial } from "./trial/stage-trial";
import { trialWorkspace } from "./trial/trial-workspace";

const allEditions = ["oldest", "newest"] as const;
const allHosts = ["workspace", "browser"] as const;
const known: readonly string[] = [...allEditions, ...allHosts, "neovim"];

/** Those of `all` that were asked for; all of them where none was. */
function chosen<T extends string>(all: readonly T[], asked: readonly string[]): readonly T[] {
  const some = all.filter((one) => asked.includes(one));
  return some.length > 0 ? some : all;
}

/** Runs the suite in every asked combination of edition and host. */
async function runVscode(
  asked: readonly string[],
  packaged: Packaged,
  suite: BundledSuite,
): Promise<readonly Outcome[]> {
  const outcomes: Outcome[] = [];
  const browser = await startChromium();
  try {
    for (const name of chosen(allEditions, asked)) {
      for (const host of chosen(allHosts, asked)) {
        console.log(`\n${name}, ${host} host`);
        const options = { edition: editions[name], host, ...packaged, workspace: trialWorkspace, suite };
        outcomes.push(await runSuite(browser, options, (line) => console.log(line)));
      }
    }
  } finally {
    await browser.close();
  }
  return outcomes;
}

/** Packages once, runs everything asked for, and closes with the line that counts all. */
async function main(): Promise<number> {
  const asked = process.argv.slice(2);
  const unknown = asked.find((word) => !known.includes(word));
  if (unknown !== undefined) {
    throw new Failure(`Nothing is called "${unknown}". Known: ${known.join(", ")}.`);
  }
  const temporary = await makeTemporaryFolder("package");
  const outcomes: Outcome[] = [];
  try {
    const packaged = await packageExtension(temporary.root, stageTrial);
    if (asked.length === 0 || asked.some((word) => word !== "neovim")) {
      outcomes.push(...(await runVscode(asked, packaged, await bundleSuite(temporary.root))));
    }
    if (asked.length === 0 || asked.includes("neovim")) {
      console.log("\nneovim");
      const server = path.join(packaged.unpacked, "dist", "server.cjs");
      const options = { server, workspace: trialWorkspace, file: "week.practice" };
      outcomes.push(await runNeovim(options, (line) => console.log(line)));
    }
  } finally {
    await temporary.remove();
  }
  const passed = outcomes.reduce((sum, outcome) => sum + outcome.passed, 0);
  const failed = outcomes.reduce((sum, outcome) => sum + outcome.failed, 0);
  console.log(`\n${passed} passed, ${failed} failed`);
  return failed === 0 ? 0 : 1;
}

runAsProgram(main);
