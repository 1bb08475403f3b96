import { cp } from "node:fs/promises";
import path from "node:path";
import { type BuildOptions, build } from "esbuild";
import { projectRoot } from "../project-root";

/** What every bundle shares. Bundles are classic scripts: workers in an editor load by importScripts. */
const shared: BuildOptions = {
  absWorkingDir: import.meta.dirname,
  bundle: true,
  minify: true,
  target: "es2022",
  legalComments: "none",
  logLevel: "warning",
  external: ["vscode"],
};
const node: BuildOptions = { ...shared, platform: "node", format: "cjs" };
const browser: BuildOptions = { ...shared, platform: "browser", conditions: ["browser"] };

/**
 * Fills a folder with what ships of the trial extension. Its manifest has no `"type": "module"`: with it the newest
 * browser host takes a `.js` entry for an ES module and refuses it, and the versions disagree about other endings.
 */
export async function stageTrial(folder: string): Promise<void> {
  const at = (name: string): string => path.join(folder, name);
  const files: readonly (readonly [string, string])[] = [
    [path.join(import.meta.dirname, "manifest.json"), "package.json"],
    [path.join(import.meta.dirname, "language-configuration.json"), "language-configuration.json"],
    [path.join(projectRoot, "LICENSE"), "LICENSE"],
  ];
  await Promise.all([
    ...files.map(([from, to]) => cp(from, at(to))),
    build({ ...node, entryPoints: ["client/node.ts"], outfile: at("dist/client.cjs") }),
    build({ ...node, entryPoints: ["server/node.ts"], outfile: at("dist/server.cjs") }),
    build({
      ...browser,
      format: "cjs",
      entryPoints: ["client/browser.ts"],
      outfile: at("dist/web/client.js"),
    }),
    build({
      ...browser,
      format: "iife",
      entryPoints: ["server/worker.ts"],
      outfile: at("dist/web/server.js"),
    }),
  ]);
}
