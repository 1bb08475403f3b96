import type { Browser } from "playwright-core";
import type { BundledSuite } from "./bundle-suite";
import { openWorkbench, type WorkbenchOptions } from "./open-workbench";
import { ResultReader, type Results } from "./outcome";

/** How long a suite may run in one editor: a minute or so, on a machine that does much else several times that. */
const limitMs = 300_000;

/** Settings of an editor that trusts nothing it opens, and does not ask. */
const untrusted: Readonly<Record<string, unknown>> = {
  "security.workspace.trust.enabled": true,
  "security.workspace.trust.startupPrompt": "never",
  "security.workspace.trust.banner": "never",
};

/**
 * Runs a suite inside one editor and hands on what it prints. A suite that ends without its closing line, with
 * another exit code than its line promises, or not at all, has failed.
 */
export async function runSuite(
  browser: Browser,
  options: WorkbenchOptions & { readonly suite: BundledSuite },
  print: (line: string) => void,
): Promise<Results> {
  const begun = performance.now();
  // A browser's host shows that nothing of a plan asks for trust: see `suite/trust.ts`.
  const settings = options.host === "browser" ? untrusted : {};
  const workbench = await openWorkbench(browser, { ...options, settings });
  const reader = new ResultReader();
  let limit: NodeJS.Timeout | undefined;
  try {
    workbench.onPrint((text) => {
      // The workbench's own log comes the same way; the suite's lines are told apart by how they begin.
      if (reader.read(text)) print(text);
    });
    await workbench.start();
    const late = new Promise<"late">((resolve) => {
      limit = setTimeout(() => resolve("late"), limitMs);
    });
    const code = await Promise.race([workbench.exit, late]);
    if (code === "late") {
      print(`        no end after ${limitMs / 1000} s; the server said:\n${workbench.serverLog()}`);
    }
    return reader.results(code);
  } finally {
    clearTimeout(limit);
    await workbench.close();
    print(`        ${((performance.now() - begun) / 1000).toFixed(1)} s`);
  }
}
