/** Runs checks in order, prints a line for each and the closing line, and fails where one of them failed. */
export async function runChecks<T extends string>(
  titles: readonly T[],
  checks: Readonly<Record<T, () => Promise<void>>>,
): Promise<void> {
  let failed = 0;
  for (const title of titles) {
    try {
      await checks[title]();
      console.log(`ok      ${title}`);
    } catch (thrown) {
      failed++;
      console.log(`FAILED  ${title}\n${thrown instanceof Error ? thrown.stack : String(thrown)}`);
    }
  }
  console.log(`${titles.length - failed} passed, ${failed} failed`);
  if (failed > 0) throw new Error(`${failed} failed`);
}
