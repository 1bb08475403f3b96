import { closeSync, fstatSync, openSync, readdirSync, readSync, realpathSync, statSync } from "node:fs";
import { resolve } from "node:path";
import { readSource } from "../../grammar/pieces";
import { SIZE_LIMIT } from "../protocol/plan-text";
import { alikeIn, fileName, folderOf, foldersUp, joined, resolved } from "./paths";
import { decoded, EXTENSION, tooLarge } from "./plan-bytes";
import { type Failure, type Source, type SourceSet, STUDIO_FILE, usesOf } from "./source";

/** What the standard input is called among the files. */
export const STANDARD_INPUT = "(standard input)";

export interface LoadRequest {
  /** Files and folders as typed. */
  readonly paths: readonly string[];
  readonly cwd: string;
  /** Bytes that came in on standard input, where `-` was asked for. */
  readonly input?: Uint8Array | undefined;
}

export interface LoadedFiles {
  readonly set: SourceSet;
  /** Folders that were asked for and hold no plan file. */
  readonly emptyFolders: readonly string[];
}

/**
 * Reads the files asked for and those they use. Whatever cannot be read is kept as a failure of that file; the
 * others go on. Nothing larger than the limit is ever opened, and pipes and devices are not waited for.
 */
export function loadFiles(request: LoadRequest): LoadedFiles {
  return new Loader(request.cwd).load(request);
}

class Loader {
  private readonly asked: string[] = [];
  private readonly sources = new Map<string, Source>();
  private readonly failures = new Map<string, Failure>();
  private readonly aliases = new Map<string, string>();
  private readonly known = new Set<string>();
  private readonly listings = new Map<string, readonly string[]>();
  private readonly walked = new Set<string>();
  private readonly studios = new Map<string, string | undefined>();
  /** Paths by what they really are, so that a link and its file are read once. */
  private readonly byRealPath = new Map<string, string>();

  constructor(private readonly cwd: string) {}

  load(request: LoadRequest): LoadedFiles {
    const emptyFolders: string[] = [];
    for (const typed of request.paths) {
      if (typed === "-") {
        const path = joined(slashed(this.cwd), STANDARD_INPUT);
        this.ask(path);
        this.keep(path, request.input ?? new Uint8Array());
        continue;
      }
      const path = slashed(resolve(this.cwd, typed));
      if (isFolder(path)) {
        const before = this.asked.length;
        this.walk(path);
        if (this.asked.length === before) emptyFolders.push(typed);
      } else this.ask(this.open(path));
    }
    // Files join the map while it is walked, and what they use in turn.
    for (const source of this.sources.values()) this.openUsed(source);
    return {
      set: {
        asked: this.asked,
        sources: this.sources,
        failures: this.failures,
        aliases: this.aliases,
        known: this.known,
      },
      emptyFolders,
    };
  }

  private ask(path: string): void {
    if (!this.asked.includes(path)) this.asked.push(path);
  }

  /** Plan files of a folder and those below it, in the order of their names; hidden folders are passed over. */
  private walk(folder: string): void {
    const real = realPath(folder);
    // A link that leads back up would never end.
    if (real === undefined || this.walked.has(real)) return;
    this.walked.add(real);
    for (const name of this.list(folder)) {
      if (name.startsWith(".") || name === "node_modules") continue;
      const path = joined(folder, name);
      if (isFolder(path)) this.walk(path);
      else if (name.endsWith(EXTENSION)) this.ask(this.open(path));
    }
  }

  private list(folder: string): readonly string[] {
    const known = this.listings.get(folder);
    if (known !== undefined) return known;
    let names: readonly string[] = [];
    try {
      names = readdirSync(folder === "" ? "/" : folder).sort();
    } catch {
      // A folder that may not be looked into holds nothing for us.
    }
    this.listings.set(folder, names);
    for (const name of names) if (name.endsWith(EXTENSION)) this.known.add(joined(folder, name));
    return names;
  }

  private openUsed(source: Source): void {
    const folder = folderOf(source.path);
    for (const { declaration } of usesOf(source.tree)) {
      const wanted = resolved(folder, declaration.path.text);
      const holds = this.folderOnDisk(folderOf(wanted));
      // The name as it stands on the disk, which may differ in signs or capitals from the one written.
      const there = alikeIn(this.list(holds), fileName(wanted));
      if (there !== undefined) this.open(joined(holds, there));
    }
    const studio = this.studioAbove(folder);
    if (studio !== undefined) this.open(studio);
  }

  /** A folder under the name it has on the disk; as it is written where there is none. */
  private folderOnDisk(folder: string): string {
    const above = folderOf(folder);
    if (above === folder || isFolder(folder)) return folder;
    const holds = this.folderOnDisk(above);
    return joined(holds, alikeIn(this.list(holds), fileName(folder)) ?? fileName(folder));
  }

  /** The nearest studio file; folders above the plans are only asked for it, not listed. */
  private studioAbove(folder: string): string | undefined {
    if (this.studios.has(folder)) return this.studios.get(folder);
    const studio = foldersUp(folder)
      .map((above) => joined(above, STUDIO_FILE))
      .find(isThere);
    this.studios.set(folder, studio);
    return studio;
  }

  /** Reads a file unless it is read already, and gives the path it is kept under. */
  private open(path: string): string {
    const real = realPath(path) ?? path;
    const first = this.byRealPath.get(real);
    if (first !== undefined) {
      if (first !== path) this.aliases.set(path, first);
      return first;
    }
    this.byRealPath.set(real, path);
    const read = readBytes(path);
    if ("code" in read) this.failures.set(path, read);
    else this.keep(path, read);
    return path;
  }

  private keep(path: string, bytes: Uint8Array): void {
    const read = decoded(bytes);
    if (typeof read === "string") this.sources.set(path, { path, text: read, tree: readSource(read) });
    else this.failures.set(path, read);
  }
}

function readBytes(path: string): Uint8Array | Failure {
  let handle: number | undefined;
  try {
    // Asked before opening: opening a pipe would wait for its writer.
    const before = statSync(path);
    if (!before.isFile()) {
      return { code: "file-unreadable", message: "This is neither a file nor a folder that can be read." };
    }
    if (before.size > SIZE_LIMIT) return tooLarge(before.size);
    handle = openSync(path, "r");
    const bytes = Buffer.alloc(fstatSync(handle).size);
    let length = 0;
    while (length < bytes.length) {
      const more = readSync(handle, bytes, length, bytes.length - length, length);
      if (more === 0) break;
      length += more;
    }
    return bytes.subarray(0, length);
  } catch (error) {
    return { code: "file-unreadable", message: whyUnreadable(error) };
  } finally {
    if (handle !== undefined) closeSync(handle);
  }
}

/** The system's reason in plain words. */
export function whyUnreadable(error: unknown): string {
  const code = error instanceof Error && "code" in error ? error.code : undefined;
  switch (code) {
    case "ENOENT":
    case "ENOTDIR":
      return "There is no file or folder of this name.";
    case "EACCES":
    case "EPERM":
      return "You are not allowed to open this file.";
    case "ELOOP":
      return "This link leads back to itself.";
    case "ENAMETOOLONG":
      return "This name is too long for a file.";
    case "EROFS":
      return "This disk cannot be written to.";
    case "ENOSPC":
      return "The disk is full.";
    default:
      return "This file cannot be opened.";
  }
}

function isThere(path: string): boolean {
  try {
    return statSync(path).isFile();
  } catch {
    return false;
  }
}

function isFolder(path: string): boolean {
  try {
    return statSync(path).isDirectory();
  } catch {
    // Opening it as a file will say why.
    return false;
  }
}

function realPath(path: string): string | undefined {
  try {
    return slashed(realpathSync(path));
  } catch {
    return undefined;
  }
}

function slashed(path: string): string {
  return path.replaceAll("\\", "/");
}
