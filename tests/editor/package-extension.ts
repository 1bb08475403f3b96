import path from "node:path";
import { makeVsix } from "../../client/packaging/make-vsix";
import { runToEnd } from "./run-to-end";

/** The extension as a user gets it, and the same files unpacked for the browser. */
export interface Packaged {
  /** The package. */
  readonly vsix: string;
  /** The folder inside it that an editor loads. */
  readonly unpacked: string;
}

/** Packages the extension under a folder, then unpacks the package itself, so that both hosts test what a user gets. */
export async function packageExtension(under: string): Promise<Packaged> {
  const vsix = path.join(under, "extension.vsix");
  await makeVsix(vsix);
  const unpacked = path.join(under, "unpacked");
  await runToEnd("python3", ["-m", "zipfile", "-e", vsix, unpacked]);
  return { vsix, unpacked: path.join(unpacked, "extension") };
}
