import * as vscode from "vscode";
import type { OldText } from "../../server/protocol/year-requests";
import { plansUnder, textOf } from "../files";
import type { Revision } from "./git";

/** The side that a plan, or a folder of plans, is compared with. */
export interface OldSide {
  /** The file or folder it is. */
  readonly uri: vscode.Uri;
  /** What it is called in a sentence. */
  readonly called: string;
  /** The plan files there, as far as they can be listed. */
  readonly listed: readonly vscode.Uri[];
  text(file: vscode.Uri): Promise<OldText>;
}

/** A file or folder as it was at a revision. Files that lie elsewhere since are found where they were. */
export async function oldRevision(
  uri: vscode.Uri,
  isFolder: boolean,
  revision: Revision,
  called: string,
): Promise<OldSide> {
  const changes = await revision.changed();
  const text = async (file: vscode.Uri): Promise<OldText> => {
    // What no revision keeps is taken to have been as it is: a studio file above the repository.
    if (!revision.holds(file)) return { uri: file.toString(), ...(await textOf(file)) };
    const found = await revision.text(file);
    return found === undefined
      ? { uri: file.toString(), trouble: "missing" }
      : { uri: file.toString(), text: found };
  };
  if (!isFolder) {
    const was = changes.find((change) => change.uri.path === uri.path)?.originalUri ?? uri;
    // The same file keeps its address as the editor spells it.
    const at = was.path === uri.path ? uri : was;
    return { uri: at, called, listed: [at], text };
  }
  const inside = `${uri.path}/`;
  const gone = changes
    .map(({ originalUri }) => originalUri)
    .filter(({ path }) => path.startsWith(inside) && path.endsWith(".practice"));
  const listed = new Map([...(await plansUnder(uri)), ...gone].map((file) => [file.path, file]));
  return { uri, called, listed: [...listed.values()], text };
}

/** Another file or folder as it lies there now. */
export async function otherPlans(uri: vscode.Uri, isFolder: boolean): Promise<OldSide> {
  return {
    uri,
    called: vscode.workspace.asRelativePath(uri),
    listed: isFolder ? await plansUnder(uri) : [uri],
    text: async (file) => ({ uri: file.toString(), ...(await textOf(file)) }),
  };
}
