import type { Reporter, TestModule } from "vitest/node";

/**
 * Ends a test run with the plain line that continuous integration reads: `N passed, N failed`.
 * Files that could not even be loaded count as failures, since their tests never ran.
 */
export default class ClosingLine implements Reporter {
  onTestRunEnd(modules: readonly TestModule[], unhandled: readonly unknown[]): void {
    let passed = 0;
    let failed = unhandled.length;
    for (const module of modules) {
      if (module.errors().length > 0) failed++;
      for (const test of module.children.allTests()) {
        const state = test.result().state;
        if (state === "passed") passed++;
        else if (state === "failed") failed++;
      }
    }
    process.stdout.write(`\n${passed} passed, ${failed} failed\n`);
  }
}
