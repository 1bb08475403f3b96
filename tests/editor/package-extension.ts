import { mkdir, rm, writeFile } from "node:fs/promises";
import path from "node:path";
import { createVSIX } from "@vscode/vsce";
import { runToEnd } from "./run-to-end";

/** The extension as a user gets it, and the same files unpacked for the browser. */
export interface Packaged {
  /** The package. */
  readonly vsix: string;
  /** The folder inside it that an editor loads. */
  readonly unpacked: string;
}

/**
 * Packages an extension under a folder, from a stage that holds exactly what ships, then unpacks the package
 * itself, so that both hosts test what a user gets.
 */
export async function packageExtension(
  under: string,
  fillStage: (folder: string) => Promise<void>,
): Promise<Packaged> {
  const stage = path.join(under, "stage");
  await mkdir(stage, { recursive: true });
  await fillStage(stage);
  // Without this file vsce warns that too much might be packaged; the stage holds nothing else.
  await writeFile(path.join(stage, ".vscodeignore"), "");
  const vsix = path.join(under, "extension.vsix");
  // Everything is bundled, so no node_modules belong in the package.
  await createVSIX({ cwd: stage, packagePath: vsix, dependencies: false, allowMissingRepository: true });
  await rm(stage, { recursive: true });
  const unpacked = path.join(under, "unpacked");
  await runToEnd("python3", ["-m", "zipfile", "-e", vsix, unpacked]);
  return { vsix, unpacked: path.join(unpacked, "extension") };
}
