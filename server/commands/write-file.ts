import { randomBytes } from "node:crypto";
import { existsSync, mkdirSync, renameSync, rmSync, statSync, writeFileSync } from "node:fs";
import { basename, dirname, join } from "node:path";

/** A file could not be written; the message says which and why. */
export class UnwrittenError extends Error {}

/** Whether a file or folder of this name is there. */
export function isThere(path: string): boolean {
  return existsSync(path);
}

/** Whether a folder of this name is there. */
export function isFolder(path: string): boolean {
  return statSync(path, { throwIfNoEntry: false })?.isDirectory() === true;
}

/** Makes a folder, and those above it. */
export function makeFolder(path: string): void {
  try {
    mkdirSync(path, { recursive: true });
  } catch (error) {
    throw new UnwrittenError(`The folder “${basename(path)}” cannot be made. ${whyUnwritable(error)}`);
  }
}

/**
 * Writes a file whole or not at all: into a draft beside it that then takes its name. What was there before stays
 * until that moment, and a full disk leaves no half file behind.
 */
export function writeWhole(path: string, content: string | Uint8Array): void {
  const name = basename(path);
  if (isFolder(path))
    throw new UnwrittenError(`“${name}” cannot be written. There is a folder of this name.`);
  const draft = join(dirname(path), `.${name}.${randomBytes(4).toString("hex")}.part`);
  try {
    writeFileSync(draft, content, { flag: "wx" });
    renameSync(draft, path);
  } catch (error) {
    rmSync(draft, { force: true });
    throw new UnwrittenError(`“${name}” cannot be written. ${whyUnwritable(error)}`);
  }
}

/** The system's reason in plain words. */
function whyUnwritable(error: unknown): string {
  const code = error instanceof Error && "code" in error ? error.code : undefined;
  switch (code) {
    case "EACCES":
    case "EPERM":
      return "You are not allowed to write in this folder.";
    case "ENOENT":
      return "There is no such folder.";
    case "ENOTDIR":
    case "EEXIST":
      return "A file stands where a folder should be.";
    case "EROFS":
      return "This disk cannot be written to.";
    case "ENOSPC":
    case "EDQUOT":
      return "The disk is full.";
    case "ENAMETOOLONG":
      return "This name is too long for a file.";
    default:
      return "The system does not say why.";
  }
}
