import { readFile, rm, writeFile } from "node:fs/promises";
import path from "node:path";
import { Failure } from "./failure";

/**
 * Keeps a second process from doing the same work at the same time. The lock file holds the id of the process
 * that has it; a lock whose process is gone was left by an interruption and is taken over.
 */
export async function holdLock(file: string): Promise<() => Promise<void>> {
  try {
    await writeFile(file, String(process.pid), { flag: "wx" });
  } catch {
    const holder = Number(await readFile(file, "utf8").catch(() => "0"));
    if (holder > 0 && isAlive(holder)) {
      throw new Failure(
        `Process ${holder} is already at this (lock: ${path.basename(file)}). Wait for it to end.`,
      );
    }
    await writeFile(file, String(process.pid));
  }
  return () => rm(file, { force: true });
}

/** Whether a process of that id exists. */
function isAlive(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch {
    return false;
  }
}
