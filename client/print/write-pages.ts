import * as vscode from "vscode";
import { isThere, nameOf } from "../write-asked";

/** One file of pages. */
export interface PageFile {
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** What asks before files are written over. */
export type MayReplaceAll = (targets: readonly vscode.Uri[]) => Thenable<boolean>;

/** Where pages go: one file to a file, several into a folder. Who names the place may bring their own question. */
export interface PagesPlace {
  readonly target?: vscode.Uri | undefined;
  readonly mayReplace?: MayReplaceAll | undefined;
  /** The plan beside which they are proposed to be. */
  readonly beside: vscode.Uri;
}

/**
 * Writes pages to where a person wants them; undefined where nothing was written. Nothing is replaced unasked, and
 * nothing is left half-written: everything goes into drafts first, which get their names when the last is done.
 */
export async function writePages(
  files: readonly PageFile[],
  { target, mayReplace = askToReplace, beside }: PagesPlace,
): Promise<readonly vscode.Uri[] | undefined> {
  const place = target ?? (await pickPlace(files, beside));
  if (place === undefined) return undefined;
  const [first, ...more] = files;
  if (first === undefined) return undefined;
  const whole = files.map((file) => ({
    ...file,
    uri: more.length === 0 ? place : vscode.Uri.joinPath(place, file.name),
  }));
  // The editor's own dialog has asked already about the one file it named.
  if (target !== undefined || more.length > 0) {
    const there: vscode.Uri[] = [];
    for (const { uri } of whole) if (await isThere(uri)) there.push(uri);
    if (there.length > 0 && !(await mayReplace(there))) return undefined;
  }
  const drafts: { readonly draft: vscode.Uri; readonly uri: vscode.Uri }[] = [];
  let at = first.name;
  try {
    for (const { uri, name, bytes } of whole) {
      at = name;
      const draft = uri.with({ path: `${uri.path}.${Date.now().toString(36)}.draft` });
      drafts.push({ draft, uri });
      await vscode.workspace.fs.writeFile(draft, bytes);
    }
    for (const { draft, uri } of drafts) {
      at = nameOf(uri);
      await vscode.workspace.fs.rename(draft, uri, { overwrite: true });
    }
  } catch (thrown) {
    for (const { draft } of drafts) await removed(draft);
    const why = thrown instanceof Error ? thrown.message : String(thrown);
    void vscode.window.showErrorMessage(
      vscode.l10n.t("“{0}” could not be written. Is the folder locked, or the disk full? ({1})", at, why),
    );
    return undefined;
  }
  return whole.map(({ uri }) => uri);
}

async function removed(draft: vscode.Uri): Promise<void> {
  try {
    await vscode.workspace.fs.delete(draft);
  } catch {
    // It has its name already, or was never begun.
  }
}

async function pickPlace(files: readonly PageFile[], beside: vscode.Uri): Promise<vscode.Uri | undefined> {
  const folder =
    beside.scheme === "untitled"
      ? vscode.workspace.workspaceFolders?.[0]?.uri
      : vscode.Uri.joinPath(beside, "..");
  const [first, ...more] = files;
  if (first === undefined) return undefined;
  if (more.length === 0) {
    const ending = first.name.split(".").at(-1) ?? "";
    return vscode.window.showSaveDialog({
      ...(folder === undefined ? {} : { defaultUri: vscode.Uri.joinPath(folder, first.name) }),
      filters: { [ending.toUpperCase()]: [ending] },
      title: vscode.l10n.t("Save the Pages"),
    });
  }
  const picked = await vscode.window.showOpenDialog({
    ...(folder === undefined ? {} : { defaultUri: folder }),
    canSelectFiles: false,
    canSelectFolders: true,
    openLabel: vscode.l10n.t("Save the Pages Here"),
    title: vscode.l10n.t("A folder for {0} files", files.length),
  });
  return picked?.[0];
}

async function askToReplace(there: readonly vscode.Uri[]): Promise<boolean> {
  const [first, ...more] = there;
  if (first === undefined) return true;
  const replace = vscode.l10n.t("Replace");
  const asking =
    more.length === 0
      ? vscode.l10n.t("“{0}” is there already. Replace it?", nameOf(first))
      : vscode.l10n.t("“{0}” and {1} more are there already. Replace them?", nameOf(first), more.length);
  return (await vscode.window.showWarningMessage(asking, { modal: true }, replace)) === replace;
}
