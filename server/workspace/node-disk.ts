import type { Dirent } from "node:fs";
import { open, readdir, realpath, stat } from "node:fs/promises";
import { SIZE_LIMIT } from "../protocol/plan-text";
import type { Disk, Listing } from "./disk";
import { whyUnreadable } from "./load-files";
import { alikeIn, fileName, folderOf, joined } from "./paths";
import { decoded, EXTENSION, tooLarge } from "./plan-bytes";
import type { Failure } from "./source";

/** So many folders are looked into before it is said how many they are. */
const OFTEN = 100;

/** Folders deeper than this below an opened one are no studio's. */
const DEEPEST = 24;

/** The disk of the computer this runs on, never waited for: nothing else stands still while a file is read. */
export const NODE_DISK: Disk = {
  async list(folders, looked) {
    const walk = new Walk(looked);
    for (const folder of folders) await walk.into(folder, 0);
    return walk.listing();
  },

  async read(path) {
    let size: number;
    try {
      // Asked before opening: opening a pipe would wait for its writer.
      const before = await stat(path);
      if (!before.isFile()) {
        return { code: "file-unreadable", message: "This is neither a file nor a folder that can be read." };
      }
      ({ size } = before);
    } catch (error) {
      return isMissing(error) ? undefined : unreadable(error);
    }
    if (size > SIZE_LIMIT) return tooLarge(size);
    try {
      const handle = await open(path, "r");
      try {
        return decoded(await handle.readFile());
      } finally {
        await handle.close();
      }
    } catch (error) {
      return isMissing(error) ? undefined : unreadable(error);
    }
  },

  async beside(folder) {
    const there = await folderOnDisk(folder);
    const names = await namesIn(there);
    return names.filter(({ name }) => name.endsWith(EXTENSION)).map(({ name }) => joined(there, name));
  },
};

/** A walk through folders in which every folder and file is met once, whatever links lead there. */
class Walk {
  private readonly folders = new Set<string>();
  private readonly paths: string[] = [];
  private readonly links: { readonly path: string; readonly real: string }[] = [];

  constructor(private readonly looked: (folders: number) => void = () => {}) {}

  async into(folder: string, depth: number): Promise<void> {
    const real = await realOf(folder);
    if (real === undefined || this.folders.has(real) || depth > DEEPEST) return;
    this.folders.add(real);
    if (this.folders.size % OFTEN === 0) this.looked(this.folders.size);
    for (const entry of await namesIn(folder)) {
      const { name } = entry;
      if (name.startsWith(".") || name === "node_modules") continue;
      const path = joined(folder, name);
      const plan = name.endsWith(EXTENSION);
      if (entry.isDirectory()) await this.into(path, depth + 1);
      else if (entry.isSymbolicLink()) await this.follow(path, plan, depth);
      else if (plan) this.paths.push(path);
    }
  }

  listing(): Listing {
    const paths = [...this.paths];
    const aliases = new Map<string, string>();
    const first = new Map(paths.map((path) => [path, path]));
    for (const { path, real } of this.links) {
      const known = first.get(real);
      if (known !== undefined) aliases.set(path, known);
      else {
        first.set(real, path);
        paths.push(path);
      }
    }
    return { paths: [...new Set(paths)].sort(), aliases };
  }

  private async follow(path: string, plan: boolean, depth: number): Promise<void> {
    const real = await realOf(path);
    if (real === undefined) return;
    if (plan) this.links.push({ path, real });
    else if (await isFolder(real)) await this.into(path, depth + 1);
  }
}

async function namesIn(folder: string): Promise<readonly Dirent[]> {
  try {
    const entries = await readdir(folder, { withFileTypes: true });
    return entries.sort((a, b) => (a.name < b.name ? -1 : a.name > b.name ? 1 : 0));
  } catch {
    // A folder that may not be looked into holds nothing for us.
    return [];
  }
}

/** A folder under the name it has on the disk; as it is written where there is none. */
async function folderOnDisk(folder: string): Promise<string> {
  const above = folderOf(folder);
  if (above === folder || (await isFolder(folder))) return folder;
  const holds = await folderOnDisk(above);
  const names = (await namesIn(holds)).map(({ name }) => name);
  return joined(holds, alikeIn(names, fileName(folder)) ?? fileName(folder));
}

async function realOf(path: string): Promise<string | undefined> {
  try {
    return (await realpath(path)).replaceAll("\\", "/");
  } catch {
    return undefined;
  }
}

async function isFolder(path: string): Promise<boolean> {
  try {
    return (await stat(path)).isDirectory();
  } catch {
    return false;
  }
}

function isMissing(error: unknown): boolean {
  return error instanceof Error && "code" in error && (error.code === "ENOENT" || error.code === "ENOTDIR");
}

function unreadable(error: unknown): Failure {
  return { code: "file-unreadable", message: whyUnreadable(error) };
}
