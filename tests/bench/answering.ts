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

/**
 * Has work done so many times in a row whenever the process that began this one says so, and answers how many
 * milliseconds each of them took on average.
 */
export function answering(times: number, work: () => unknown): void {
  process.on("message", async () => {
    let sum = 0;
    for (let i = 0; i < times; i++) sum += await timeHere(work);
    process.send?.(sum / times);
  });
}
