import { writeFile } from "node:fs/promises";
import path from "node:path";
import { build } from "esbuild";

/** A suite that an editor can load from either host. */
export interface BundledSuite {
  /** The folder of the companion extension that carries it. */
  readonly folder: string;
  /** The script in it that exports `run`, without its ending, as the hosts want it. */
  readonly script: string;
}

/**
 * Bundles the suite beside the manifest of a companion extension: an editor runs a suite only while it develops
 * some extension, and the one under test is installed, not developed. Both hosts load the same plain scripts.
 */
export async function bundleSuite(under: string): Promise<BundledSuite> {
  const source = path.join(import.meta.dirname, "suite");
  const folder = path.join(under, "suite");
  await build({
    entryPoints: [path.join(source, "index.ts"), path.join(source, "companion.ts")],
    outdir: folder,
    bundle: true,
    format: "cjs",
    platform: "browser",
    target: "es2022",
    external: ["vscode"],
    logLevel: "warning",
  });
  const manifest = {
    name: "editor-suite",
    publisher: "leadpipe-tests",
    version: "0.0.1",
    engines: { vscode: "^1.100.0" },
    main: "./companion.js",
    browser: "./companion.js",
    activationEvents: [],
    capabilities: { untrustedWorkspaces: { supported: true } },
  };
  await writeFile(path.join(folder, "package.json"), JSON.stringify(manifest));
  return { folder, script: "index" };
}
