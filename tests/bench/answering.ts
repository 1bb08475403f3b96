import { setFlagsFromString } from "node:v8";
import { runInNewContext } from "node:vm";

setFlagsFromString("--expose-gc");
const collectYoung: (how: { readonly type: "minor" }) => void = runInNewContext("gc");

/**
 * Milliseconds that somebody waits for work in this process. The young garbage of the work before is collected first,
 * as the language server does while nobody waits; what is collected on the way counts. A full collection would also
 * throw away what the engine has learned, and nothing would be warm.
 */
export async function timeHere(work: () => unknown): Promise<number> {
  collectYoung({ type: "minor" });
  const start = performance.now();
  await work();
  return performance.now() - start;
}

/**
 * Has work done in a row, as often as the first argument says, whenever the process that began this one says so, and
 * answers how many milliseconds each of them took on average.
 */
export function answering(work: () => unknown): void {
  const inARow = Number(process.argv[2]);
  process.on("message", async () => {
    let sum = 0;
    for (let i = 0; i < inARow; i++) sum += await timeHere(work);
    process.send?.(sum / inARow);
  });
}
