import { rmSync } from "node:fs";
import { mkdtemp, rm } from "node:fs/promises";
import os from "node:os";
import path from "node:path";

/** How stubbornly a folder is removed: a process that is just ending may still write into it. */
const removal = { recursive: true, force: true, maxRetries: 5 } as const;

/** Makes a fresh folder among the system's temporary ones; it goes away with the process at the latest. */
export async function makeTemporaryFolder(
  name: string,
): Promise<{ readonly root: string; remove(): Promise<void> }> {
  const root = await mkdtemp(path.join(os.tmpdir(), `leadpipe-${name}-`));
  const removeNow = (): void => rmSync(root, removal);
  process.once("exit", removeNow);
  return {
    root,
    async remove() {
      process.off("exit", removeNow);
      await rm(root, removal);
    },
  };
}
