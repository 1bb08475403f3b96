/**
 * Bundles the extension into `dist/`: client and server for an editor with processes, and both again for one in a
 * browser. Run by itself it does only that.
 */
import path from "node:path";
import { fileURLToPath } from "node:url";
import { type BuildOptions, build } from "esbuild";

/** The root of the project: two folders above this file. */
export const ROOT = path.resolve(import.meta.dirname, "..", "..");

/** The scripts that ship, from the package's root. The first two run where Node is, the others in a browser. */
export const BUNDLES = [
  "dist/extension.cjs",
  "dist/server.cjs",
  "dist/browser.js",
  "dist/worker.js",
] as const;
/** Those that a browser loads. */
export const WEB_BUNDLES = ["dist/browser.js", "dist/worker.js"] as const;

const shared: BuildOptions = {
  absWorkingDir: ROOT,
  bundle: true,
  minify: true,
  legalComments: "none",
  logLevel: "warning",
};
/** VS Code 1.100, the oldest supported, carries Node 20. */
const node: BuildOptions = { ...shared, platform: "node", target: "node20", format: "cjs" };
const browser: BuildOptions = { ...shared, platform: "browser", target: "es2022", conditions: ["browser"] };

/** Bundles everything under a folder; `dist/` of the project where none is named. */
export async function bundle(under: string = ROOT): Promise<void> {
  const to = (name: (typeof BUNDLES)[number]): string => path.join(under, name);
  await Promise.all([
    // Hosts hand the editor's own interface to the client under this name.
    build({
      ...node,
      external: ["vscode"],
      entryPoints: ["client/extension.ts"],
      outfile: to("dist/extension.cjs"),
    }),
    build({ ...node, entryPoints: ["server/node.ts"], outfile: to("dist/server.cjs") }),
    // A browser's host wants CommonJS for the client; a worker is loaded by importScripts, so it is a plain script.
    build({
      ...browser,
      format: "cjs",
      external: ["vscode"],
      entryPoints: ["client/browser.ts"],
      outfile: to("dist/browser.js"),
    }),
    build({ ...browser, format: "iife", entryPoints: ["server/worker.ts"], outfile: to("dist/worker.js") }),
  ]);
}

if (process.argv[1] === fileURLToPath(import.meta.url)) await bundle();
