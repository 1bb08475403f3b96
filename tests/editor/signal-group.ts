import type { ChildProcess } from "node:child_process";

/** Signals the group that a child leads, if any of it is left. */
export function signalGroup(child: ChildProcess, signal: NodeJS.Signals): void {
  if (child.pid === undefined) return;
  try {
    process.kill(-child.pid, signal);
  } catch {
    // Nobody is left to hear it.
  }
}
