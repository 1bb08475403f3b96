import type { Checked } from "./checked";
import { Snapshot } from "./snapshot";
import type { SourceSet } from "./source";

export type { Checked, CheckedFile, PieceHomes } from "./checked";

export interface CheckOptions {
  /** False where only the plans are wanted; what is found in them is then worked out only if it is asked for. */
  readonly findings: boolean;
  /** Called before each file, so that long work can show how far it is. */
  readonly progress?: (done: number, all: number) => void;
}

/** Reads a set of files into plans and checks those that were asked for. */
export function checkSources(set: SourceSet, options: CheckOptions = { findings: true }): Checked {
  const snapshot = new Snapshot(set);
  if (options.findings) {
    const wanted = snapshot.files.filter((each) => each.asked);
    for (const [done, file] of wanted.entries()) {
      options.progress?.(done, wanted.length);
      for (const _ of file.checking());
    }
  }
  return snapshot;
}
