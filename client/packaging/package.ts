/**
 * Makes `dist/leadpipe.vsix` and says how large it and its web part are; fails where one of them is past its bound.
 *
 *     npm run package
 */
import { mkdir, readFile, stat } from "node:fs/promises";
import path from "node:path";
import { gzipSync } from "node:zlib";
import { bundle, ROOT, WEB_FILES } from "./bundle";
import { makeVsix } from "./make-vsix";

/** Bytes of the whole package. */
const PACKAGE_BOUND = 18_000_000;
/** Bytes of what a browser loads, compressed as a web server sends it. */
const WEB_BOUND = 4_000_000;

const target = path.join(ROOT, "dist", "leadpipe.vsix");
await mkdir(path.dirname(target), { recursive: true });
await makeVsix(target);
await bundle();
const whole = (await stat(target)).size;
let web = 0;
for (const name of WEB_FILES) web += gzipSync(await readFile(path.join(ROOT, name))).length;
console.log(`dist/leadpipe.vsix   ${kilobytes(whole)}, of ${kilobytes(PACKAGE_BOUND)} at most`);
console.log(`its web part, zipped ${kilobytes(web)}, of ${kilobytes(WEB_BOUND)} at most`);
if (whole > PACKAGE_BOUND || web > WEB_BOUND) {
  console.error("The package has grown past its bound.");
  process.exitCode = 1;
}

function kilobytes(bytes: number): string {
  return `${Math.round(bytes / 1000).toLocaleString("en")} kB`;
}
