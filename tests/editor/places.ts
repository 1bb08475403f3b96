import { existsSync } from "node:fs";
import path from "node:path";
import { type Edition, nodeReleases } from "./editions";
import { projectRoot } from "./project-root";

/** Where provisioned editors live unless `LEADPIPE_EDITOR_CACHE` names another folder. */
export function cacheFolder(): string {
  return path.resolve(projectRoot, process.env["LEADPIPE_EDITOR_CACHE"] ?? path.join(".cache", "editor"));
}

/**
 * Whether the Node that runs this process can also run an edition: it must be of the same line, and bring the
 * headers that native modules are built against, since the build cannot download them.
 */
function ownNodeServes(edition: Edition): boolean {
  const sameLine = Number(process.versions.node.split(".")[0]) === edition.node;
  return sameLine && existsSync(path.join(path.dirname(process.execPath), "..", "include", "node", "node.h"));
}

/** The native interface number of each Node release line, part of the key because native modules depend on it. */
const abiOf: Readonly<Record<number, string>> = { 20: "115", 24: "137" };

/** Where one edition and its Node are, once provisioned. */
export interface Places {
  /** The folder of this edition; its name is the key: version, native interface, platform, architecture. */
  readonly home: string;
  /** The VS Code server itself. */
  readonly vscode: string;
  /** The folder that holds the fetched Node, or undefined where this process's own Node serves. */
  readonly nodeHome: string | undefined;
  /** The Node executable that runs the server. */
  readonly node: string;
  /** Written last: its presence means that everything before it worked. */
  readonly marker: string;
}

/** The places of an edition in the cache folder. Nothing is created. */
export function placesOf(edition: Edition): Places {
  const cache = cacheFolder();
  const machine = `${process.platform}-${process.arch}`;
  const home = path.join(cache, `vscode-${edition.vscode}-abi${abiOf[edition.node]}-${machine}`);
  const nodeHome = ownNodeServes(edition)
    ? undefined
    : path.join(cache, `node-${nodeReleases[edition.node]}-${machine}`);
  return {
    home,
    vscode: path.join(home, "node_modules", "code-server", "lib", "vscode"),
    nodeHome,
    node:
      nodeHome === undefined
        ? process.execPath
        : path.join(nodeHome, "node_modules", nodePackage(), "bin", "node"),
    marker: path.join(home, "ready.json"),
  };
}

/** The npm package that carries a Node executable for this machine. */
export function nodePackage(): string {
  return `node-${process.platform}-${process.arch}`;
}

/** Whether an edition is provisioned and its Node present. */
export function isReady(places: Places): boolean {
  return existsSync(places.marker) && existsSync(places.node);
}
