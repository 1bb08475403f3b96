import { setFlagsFromString } from "node:v8";
import { runInNewContext } from "node:vm";

setFlagsFromString("--expose-gc");
const collectYoung: (how: { readonly type: "minor" }) => void = runInNewContext("gc");

/**
 * Milliseconds that work takes in this process. The young garbage of the work before is collected first, so that
 * each pays its own; a full collection would also throw away what the engine has learned, and nothing would be warm.
 */
export async function timeHere(work: () => unknown): Promise<number> {
  collectYoung({ type: "minor" });
  const start = performance.now();
  await work();
  return performance.now() - start;
}

/** Has work done whenever the process that began this one says so, and answers how many milliseconds it took. */
export function answering(work: () => unknown): void {
  process.on("message", async () => process.send?.(await timeHere(work)));
}
