import { readFile } from "node:fs/promises";
import path from "node:path";
import { gzipSync } from "node:zlib";
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
