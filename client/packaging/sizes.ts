import { readdir, readFile } from "node:fs/promises";
import path from "node:path";
import { deflateRawSync, gzipSync } from "node:zlib";
import { WEB_FILES } from "./bundle";

/** Bytes that the whole package may have: an editor fetches it at once. */
export const PACKAGE_BOUND = 18_000_000;
/** Bytes that what a browser loads may have, compressed as a web server sends it. */
export const WEB_BOUND = 4_000_000;

/** Compressed bytes of what a browser loads of a folder that was filled as the package is. */
export async function webSize(folder: string): Promise<number> {
  const files = await Promise.all(WEB_FILES.map((name) => readFile(path.join(folder, name))));
  return files.reduce((sum, bytes) => sum + gzipSync(bytes).length, 0);
}

/** Bytes of all that ships in a folder as a package compresses it, each file by itself. */
export async function packedSize(folder: string): Promise<number> {
  const entries = await readdir(folder, { recursive: true, withFileTypes: true });
  const sizes = entries
    .filter((entry) => entry.isFile())
    .map(async ({ parentPath, name }) => deflateRawSync(await readFile(path.join(parentPath, name))).length);
  return (await Promise.all(sizes)).reduce((sum, each) => sum + each, 0);
}
