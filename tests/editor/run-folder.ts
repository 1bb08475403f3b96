import { mkdir } from "node:fs/promises";
import path from "node:path";
import { makeTemporaryFolder } from "./temporary-folder";

/** Everything one run writes, in one folder of its own that goes away with it. */
export interface RunFolder {
  readonly root: string;
  /** The server's settings, extensions and logs. */
  readonly data: string;
  /** What stands in for the home folder, so that nobody's real one is touched. */
  readonly home: string;
  /** The folder the editor opens. */
  readonly workspace: string;
  /** Takes the folder away. */
  remove(): Promise<void>;
}

/** Makes a fresh run folder. */
export async function makeRunFolder(): Promise<RunFolder> {
  const { root, remove } = await makeTemporaryFolder("editor");
  const folder = {
    root,
    data: path.join(root, "data"),
    home: path.join(root, "home"),
    workspace: path.join(root, "workspace"),
    remove,
  };
  for (const made of [folder.data, folder.home, folder.workspace]) await mkdir(made);
  return folder;
}
