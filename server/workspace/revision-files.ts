import { SIZE_LIMIT } from "../protocol/plan-text";
import { joined, resolved } from "./paths";
import { decoded, EXTENSION, tooLarge } from "./plan-bytes";
import type { Failure, SourceSet } from "./source";
import { isWithin, sourceSetOf } from "./source-set-of";

/** Asks git something, in the words that follow `git`; undefined where there is no git. */
export type AskGit = (words: readonly string[], input?: string) => Promise<GitAnswer | undefined>;

export interface GitAnswer {
  /** The number it ended with; 0 is success. */
  readonly code: number;
  readonly out: Uint8Array;
  readonly err: string;
}

/** The plan files of a revision, or why there are none, in a sentence. */
export type RevisionFiles = { readonly set: SourceSet } | { readonly why: string };

export interface RevisionRequest {
  readonly git: AskGit;
  /** A folder of the repository that is there today, with forward slashes: git is asked in it. */
  readonly cwd: string;
  /** As git names it: `HEAD~3`, a branch, a tag, the start of a commit's number. */
  readonly revision: string;
  /** Files and folders as whole paths, or as written from `cwd`. */
  readonly paths: readonly string[];
}

/**
 * The plan files of a revision, under the paths they have on the disk today, so that both are shown alike. Only
 * plan files are read, and none beyond the size limit.
 */
export async function revisionFiles(request: RevisionRequest): Promise<RevisionFiles> {
  const { cwd, revision, paths } = request;
  const git: AskGit = (words, input) => request.git(["-C", cwd, ...words], input);
  const prefix = await git(["rev-parse", "--show-prefix"]);
  if (prefix === undefined) return { why: "There is no git on this computer to ask for a revision." };
  if (prefix.code !== 0) return { why: whyNoRepository(prefix.err) };
  const below = textOf(prefix.out).replace(/\r?\n$/, "");
  const commit = await git(["rev-parse", "--verify", "--quiet", "--end-of-options", `${revision}^{commit}`]);
  if (commit?.code !== 0) return { why: `There is no revision “${revision}” in this repository.` };
  const tree = await git(["ls-tree", "-r", "-z", "-l", "--full-tree", textOf(commit.out).trim()]);
  if (tree?.code !== 0) return { why: `The revision “${revision}” cannot be read.` };
  const entries = entriesOf(textOf(tree.out));
  // The repository's top as it is written from here, which may be through a link.
  const top = below === "" ? cwd : resolved(cwd, "../".repeat(below.split("/").length - 1));
  const failures = new Map<string, Failure>();
  const readable: Entry[] = [];
  for (const entry of entries) {
    if (entry.size > SIZE_LIMIT) failures.set(joined(top, entry.path), tooLarge(entry.size));
    else readable.push(entry);
  }
  const blobs = await git(["cat-file", "--batch"], readable.map(({ blob }) => `${blob}\n`).join(""));
  if (blobs?.code !== 0) return { why: `The files of the revision “${revision}” cannot be read.` };
  const texts = new Map<string, string>();
  for (const [i, bytes] of blobsIn(blobs.out).entries()) {
    const path = joined(top, readable[i]?.path ?? "");
    const read = decoded(bytes);
    if (typeof read === "string") texts.set(path, read);
    else failures.set(path, read);
  }
  const wanted = paths.map((path) => resolved(cwd, path));
  return { set: sourceSetOf(texts, failures, (path) => wanted.some((each) => isWithin(each, path))) };
}

function whyNoRepository(said: string): string {
  if (/dubious ownership/.test(said)) return "Git does not read this folder: it belongs to somebody else.";
  return "This folder is not in a git repository, so there are no revisions to compare.";
}

interface Entry {
  readonly blob: string;
  readonly size: number;
  readonly path: string;
}

/** Plan files of `git ls-tree -r -z -l`; links and modules are passed over, and hidden folders as on the disk. */
function entriesOf(listing: string): readonly Entry[] {
  return listing.split("\0").flatMap((line) => {
    const match = /^100\d{3} blob ([0-9a-f]+) +(\d+)\t([\s\S]+)$/.exec(line);
    const [, blob, size, path] = match ?? [];
    if (blob === undefined || path === undefined || !path.endsWith(EXTENSION)) return [];
    if (path.split("/").some((part) => part.startsWith(".") || part === "node_modules")) return [];
    return [{ blob, size: Number(size), path }];
  });
}

/** The contents in `git cat-file --batch`: a line with the size, then so many bytes and a line's end. */
function blobsIn(out: Uint8Array): readonly Uint8Array[] {
  const blobs: Uint8Array[] = [];
  for (let at = 0; at < out.length; ) {
    const end = out.indexOf(0x0a, at);
    const size = Number(textOf(out.subarray(at, end)).split(" ")[2] ?? 0);
    blobs.push(out.subarray(end + 1, end + 1 + size));
    at = end + 1 + size + 1;
  }
  return blobs;
}

function textOf(bytes: Uint8Array): string {
  return new TextDecoder().decode(bytes);
}
