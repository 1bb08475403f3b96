import { accessSync, constants } from "node:fs";
import path from "node:path";
import type { Program } from "./programs";

/** The full path of a program, or undefined where it is not installed. */
export function findProgram(program: Program): string | undefined {
  for (const folder of (process.env["PATH"] ?? "").split(path.delimiter)) {
    for (const name of program.names) {
      const file = path.join(folder, name);
      try {
        accessSync(file, constants.X_OK);
        return file;
      } catch {
        // Not here; the next folder may have it.
      }
    }
  }
  return undefined;
}
