/** What became of one check: undefined where it passed, else what went wrong. */
export type Results = ReadonlyMap<string, string | undefined>;

/** How many of some results passed, and how many did not. */
export function countsOf(results: Results): { readonly passed: number; readonly failed: number } {
  const failed = [...results.values()].filter((problem) => problem !== undefined).length;
  return { passed: results.size - failed, failed };
}

/**
 * Reads results from the lines of a run: `ok      title`, `FAILED  title` with the reason in the lines below it, and
 * a closing line that counts both. Reading is over with the closing line.
 */
export class ResultReader {
  private readonly found = new Map<string, string | undefined>();
  private failing: string | undefined;
  private closing: { readonly passed: number; readonly failed: number } | undefined;

  /** Takes one line or several; says whether they belonged to the run. */
  read(text: string): boolean {
    // What a check tells beside its result.
    if (/^ {8}/.test(text)) return true;
    const closing = /^(\d+) passed, (\d+) failed$/m.exec(text);
    const [first = "", ...more] = text.split("\n");
    const [, word, title = ""] = /^(ok {6}|FAILED {2})(.*)$/.exec(first) ?? [];
    if (word !== undefined) {
      this.failing = word.startsWith("ok") ? undefined : title;
      this.found.set(title, word.startsWith("ok") ? undefined : more.join("\n") || "failed");
    } else if (closing !== null) {
      this.closing = { passed: Number(closing[1]), failed: Number(closing[2]) };
    } else if (this.failing !== undefined) {
      this.found.set(this.failing, `${this.found.get(this.failing)}\n${text}`);
    } else return false;
    return true;
  }

  /** The results, with one more that failed where the run did not end as its closing line promises. */
  results(code: number | string): Results {
    const counts = countsOf(this.found);
    const kept =
      this.closing !== undefined &&
      this.closing.passed === counts.passed &&
      this.closing.failed === counts.failed &&
      (code === 0) === (counts.failed === 0);
    if (kept) return this.found;
    return new Map([...this.found, ["runs to its end", `broke off with ${code}`]]);
  }
}
