import { writeFile } from "node:fs/promises";
import path from "node:path";

/**
 * Writes a workspace of one folder, to which the suite can add another without the editor starting anew.
 *
 * @returns its path, in `root`.
 */
export async function workspaceFile(root: string, folder: string): Promise<string> {
  const file = path.join(root, "studio.code-workspace");
  await writeFile(file, JSON.stringify({ folders: [{ path: folder }] }));
  return file;
}
