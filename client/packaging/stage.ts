import { cp, mkdir, readFile, writeFile } from "node:fs/promises";
import path from "node:path";
import { bundle, ROOT } from "./bundle";

/** What ships beside the bundles: from where in the project, and to where in the package. */
const FILES: readonly (readonly [string, string])[] = [
  ["LICENSE", "LICENSE"],
  ["CHANGELOG.md", "CHANGELOG.md"],
  ["client/licences/verovio", "dist/verovio"],
  ["client/licences/press", "dist/press"],
  ["client/README.md", "README.md"],
  ["client/media/icon.png", "media/icon.png"],
  ["client/media/activity.svg", "media/activity.svg"],
  ["client/media/plan-light.svg", "media/plan-light.svg"],
  ["client/media/plan-dark.svg", "media/plan-dark.svg"],
  ["client/walkthrough", "walkthrough"],
  ["grammar/REFERENCE.md", "grammar/REFERENCE.md"],
  ["grammar/practice.tmLanguage.json", "grammar/practice.tmLanguage.json"],
  ["grammar/language-configuration.json", "grammar/language-configuration.json"],
];

/** What the extension's manifest takes over from the project's own. */
const SHARED = ["name", "displayName", "version", "description", "license"] as const;

/** Fills a folder with what ships of the extension, and nothing else. */
export async function fillStage(folder: string): Promise<void> {
  await mkdir(folder, { recursive: true });
  // The bundles first: licences lie beside some of them, and two copies that make the same folder collide.
  await bundle(folder);
  await Promise.all([
    ...FILES.map(([from, to]) => cp(path.join(ROOT, from), path.join(folder, to), { recursive: true })),
    writeFile(path.join(folder, "package.json"), `${JSON.stringify(await shippedManifest(), null, 2)}\n`),
  ]);
}

/**
 * The manifest as it ships: what the project says of itself, and what the editor must know. Of the project's own
 * manifest nothing else comes along: with its `"type": "module"` the newest browser host takes the client for an ES
 * module and refuses it.
 */
export async function shippedManifest(): Promise<Readonly<Record<string, unknown>>> {
  const project = await readObject("package.json");
  const editor = await readObject("client/manifest.json");
  return { ...Object.fromEntries(SHARED.map((name) => [name, project[name]])), ...editor };
}

async function readObject(name: string): Promise<Readonly<Record<string, unknown>>> {
  const read: unknown = JSON.parse(await readFile(path.join(ROOT, name), "utf8"));
  if (typeof read !== "object" || read === null) throw new Error(`${name} holds no object`);
  return Object.fromEntries(Object.entries(read));
}
