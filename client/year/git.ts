import * as vscode from "vscode";

/** What is used of the editor's own git: names and shapes as its extension states them, version 1. */
interface GitExtension {
  readonly enabled: boolean;
  getAPI(version: 1): GitApi;
}

interface GitApi {
  openRepository(root: vscode.Uri): Promise<GitRepository | null>;
  getRepository(uri: vscode.Uri): GitRepository | null;
}

interface GitRepository {
  readonly rootUri: vscode.Uri;
  getCommit(ref: string): Promise<{ readonly hash: string }>;
  show(ref: string, path: string): Promise<string>;
  diffWith(ref: string): Promise<readonly GitChange[]>;
}

interface GitChange {
  readonly uri: vscode.Uri;
  readonly originalUri: vscode.Uri;
}

/** A revision of a repository, or why there is none, in a teacher's words; `offer` where other files may do. */
export type FoundRevision = { readonly revision: Revision } | { readonly why: string };

/** The files of a repository as they were. */
export interface Revision {
  /** Whether a file lies in the repository at all. */
  holds(file: vscode.Uri): boolean;
  /** The text of a file as it was; undefined where there was none. */
  text(file: vscode.Uri): Promise<string | undefined>;
  /** Files that are not as they were: where each is now, and where it was. */
  changed(): Promise<readonly GitChange[]>;
}

/** What is wrong with a revision as it was typed; undefined where nothing is. */
export function revisionTrouble(typed: string): string | undefined {
  // Git takes what begins with a dash for a switch, and what follows a colon for a file.
  return /^[^-\s:][^\s:]*$/.test(typed.trim())
    ? undefined
    : vscode.l10n.t("A branch, a tag, the start of a commit's number, or such as HEAD~3.");
}

/** A revision of the repository that a file or folder lies in; `called` says which, for the answer. */
export async function revisionOf(
  place: vscode.Uri,
  revision: string,
  folder: vscode.Uri,
): Promise<FoundRevision> {
  const api = await gitApi();
  if (api === undefined) {
    return {
      why: vscode.l10n.t("There is no git here to ask: it is switched off, not installed, or out of reach."),
    };
  }
  const repository = api.getRepository(place) ?? (await opened(api, folder));
  if (repository === null) {
    return {
      why: vscode.l10n.t(
        "This plan is in no git repository that is open, so there is nothing kept of it to compare with.",
      ),
    };
  }
  const trouble = revisionTrouble(revision);
  if (trouble !== undefined) return { why: trouble };
  const hash = await hashOf(repository, revision);
  if (hash === undefined) {
    return {
      why:
        revision === "HEAD"
          ? vscode.l10n.t(
              "Nothing was committed in this repository yet, so there is nothing to compare with.",
            )
          : vscode.l10n.t("There is no revision “{0}” in this repository.", revision),
    };
  }
  return {
    revision: {
      holds: (file) => isInside(repository.rootUri, file),
      text: async (file) => {
        try {
          return await repository.show(hash, file.fsPath);
        } catch {
          // The revision is there, so it is the file that is not.
          return undefined;
        }
      },
      changed: () => repository.diffWith(hash),
    },
  };
}

/** The editor's git; undefined where it has none, as in a browser. */
async function gitApi(): Promise<GitApi | undefined> {
  const extension = vscode.extensions.getExtension<GitExtension>("vscode.git");
  if (extension === undefined) return undefined;
  try {
    const git = await extension.activate();
    return git.enabled ? git.getAPI(1) : undefined;
  } catch {
    // Its way to say that it found no git on the computer.
    return undefined;
  }
}

async function opened(api: GitApi, folder: vscode.Uri): Promise<GitRepository | null> {
  if (folder.scheme !== "file") return null;
  try {
    return (await api.openRepository(folder)) ?? api.getRepository(folder);
  } catch {
    return null;
  }
}

async function hashOf(repository: GitRepository, revision: string): Promise<string | undefined> {
  try {
    // A tag may have a text of its own; what it stands on is meant.
    return (await repository.getCommit(`${revision.trim()}^{commit}`)).hash;
  } catch {
    return undefined;
  }
}

function isInside(root: vscode.Uri, file: vscode.Uri): boolean {
  const folder = root.path.endsWith("/") ? root.path : `${root.path}/`;
  return file.scheme === root.scheme && file.path.startsWith(folder);
}
