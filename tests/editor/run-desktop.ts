/**
 * Runs the very same suite in a desktop VS Code, where one can be downloaded.
 *
 *     npm run test:desktop -- [1.100.3]
 *
 * `LEADPIPE_VSCODE` names an installed executable to use in place of a download.
 */
import { cp } from "node:fs/promises";
import path from "node:path";
import { runTests } from "@vscode/test-electron";
import { bundleSuite } from "./bundle-suite";
import { editions } from "./editions";
import { packageExtension } from "./package-extension";
import { runAsProgram } from "./run-as-program";
import { sampleWorkspace } from "./sample-workspace";
import { makeTemporaryFolder } from "./temporary-folder";
import { workspaceFile } from "./workspace-file";

runAsProgram(async () => {
  const temporary = await makeTemporaryFolder("desktop");
  try {
    const { unpacked } = await packageExtension(temporary.root);
    const suite = await bundleSuite(temporary.root);
    const workspace = path.join(temporary.root, "workspace");
    await cp(sampleWorkspace, workspace, { recursive: true });
    const installed = process.env["LEADPIPE_VSCODE"];
    return await runTests({
      ...(installed === undefined
        ? { version: process.argv[2] ?? editions.newest.vscode }
        : { vscodeExecutablePath: installed }),
      extensionDevelopmentPath: [unpacked, suite.folder],
      extensionTestsPath: path.join(suite.folder, suite.script),
      launchArgs: [
        await workspaceFile(temporary.root, workspace),
        "--disable-extensions",
        "--disable-workspace-trust",
        `--user-data-dir=${path.join(temporary.root, "data")}`,
      ],
    });
  } finally {
    await temporary.remove();
  }
});
