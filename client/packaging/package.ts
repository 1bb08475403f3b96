/**
 * Makes `dist/leadpipe.vsix` and says how large it and its web part are; fails where one of them is past its bound.
 *
 *     npm run package
 */
import { mkdir, stat } from "node:fs/promises";
import path from "node:path";
import { bundle, ROOT } from "./bundle";
import { makeVsix } from "./make-vsix";
import { PACKAGE_BOUND, WEB_BOUND, webSize } from "./sizes";

const target = path.join(ROOT, "dist", "leadpipe.vsix");
await mkdir(path.dirname(target), { recursive: true });
await makeVsix(target);
await bundle();
const whole = (await stat(target)).size;
const web = await webSize(ROOT);
console.log(`dist/leadpipe.vsix   ${kilobytes(whole)}, of ${kilobytes(PACKAGE_BOUND)} at most`);
console.log(`its web part, zipped ${kilobytes(web)}, of ${kilobytes(WEB_BOUND)} at most`);
if (whole > PACKAGE_BOUND || web > WEB_BOUND) {
  console.error("The package has grown past its bound.");
  process.exitCode = 1;
}

function kilobytes(bytes: number): string {
  return `${Math.round(bytes / 1000).toLocaleString("en")} kB`;
}
