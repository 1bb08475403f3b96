/** One thing the suite looks at inside the editor. */
export interface Check {
  readonly title: string;
  run(): Promise<void>;
}

/** Runs checks in order, prints a line for each and the closing line, and fails where one of them failed. */
export async function runChecks(checks: readonly Check[]): Promise<void> {
  let failed = 0;
  for (const check of checks) {
    try {
      await check.run();
      console.log(`ok      ${check.title}`);
    } catch (thrown) {
      failed++;
      console.log(`FAILED  ${check.title}\n${thrown instanceof Error ? thrown.stack : String(thrown)}`);
    }
  }
  console.log(`${checks.length - failed} passed, ${failed} failed`);
  if (failed > 0) throw new Error(`${failed} failed`);
}
