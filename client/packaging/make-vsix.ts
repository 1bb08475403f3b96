import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import path from "node:path";
import { createVSIX } from "@vscode/vsce";
import { fillStage } from "./stage";

/** Makes the package at this path. What goes into it is staged in a temporary folder, so that nothing else can. */
export async function makeVsix(target: string): Promise<void> {
  const stage = await mkdtemp(path.join(tmpdir(), "leadpipe-stage-"));
  try {
    await fillStage(stage);
    // Without this file vsce warns that too much might be packaged; the stage holds nothing else.
    await writeFile(path.join(stage, ".vscodeignore"), "");
    // Everything is bundled, so no node_modules belong in the package.
    await createVSIX({
      cwd: stage,
      packagePath: target,
      dependencies: false,
      allowMissingRepository: true,
      skipLicense: true,
      // What the pages point at ships beside them.
      rewriteRelativeLinks: false,
    });
  } finally {
    // Where one bundle failed, others may still be writing; the failure is what should be heard of.
    await rm(stage, { recursive: true, force: true, maxRetries: 5 });
  }
}
