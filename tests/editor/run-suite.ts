import type { Browser } from "playwright-core";
import type { BundledSuite } from "./bundle-suite";
import { openWorkbench, type WorkbenchOptions } from "./open-workbench";
import { closingIn, type Outcome } from "./outcome";

/** How long a suite may run in one editor. */
const limitMs = 120_000;

/**
 * Runs a suite inside one editor and hands on what it prints. A suite that ends without its closing line, with
 * another exit code than its line promises, or not at all, counts as failed.
 */
export async function runSuite(
  browser: Browser,
  options: WorkbenchOptions & { readonly suite: BundledSuite },
  print: (line: string) => void,
): Promise<Outcome> {
  const begun = performance.now();
  const workbench = await openWorkbench(browser, options);
  let outcome: Outcome | undefined;
  let limit: NodeJS.Timeout | undefined;
  try {
    workbench.onPrint((text) => {
      const closing = closingIn(text);
      if (closing) outcome = closing;
      // The workbench's own log comes the same way; the suite's lines are told apart by how they begin.
      else if (/^(ok|FAILED| {6})/.test(text)) print(text);
    });
    await workbench.start();
    const late = new Promise<"late">((resolve) => {
      limit = setTimeout(() => resolve("late"), limitMs);
    });
    const code = await Promise.race([workbench.exit, late]);
    if (code === "late") {
      print(`        no end after ${limitMs / 1000} s; the server said:\n${workbench.serverLog()}`);
    }
    if (outcome === undefined || (code !== 0 && outcome.failed === 0)) {
      print(`        the suite broke off with ${code}`);
      outcome = { passed: outcome?.passed ?? 0, failed: 1 };
    }
  } finally {
    clearTimeout(limit);
    await workbench.close();
  }
  print(`        ${((performance.now() - begun) / 1000).toFixed(1)} s`);
  return outcome;
}
