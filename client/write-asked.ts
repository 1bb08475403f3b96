import * as vscode from "vscode";

/** What asks before something is written over; those who name the file themselves may bring their own. */
export type MayReplace = (target: vscode.Uri) => Thenable<boolean>;

/** Where a file may go. */
export interface Destination {
  /** The file; without one, a person picks it. */
  readonly target?: vscode.Uri | undefined;
  readonly mayReplace?: MayReplace | undefined;
  /** What the dialog proposes: a name in the folder of a file, or in the one that is open. */
  readonly fileName: string;
  readonly beside: vscode.Uri | undefined;
  /** What the dialog calls files of the kind, and their endings without a dot. */
  readonly kind: string;
  readonly endings: readonly string[];
  readonly title: string;
}

/** Writes a file to where a person wants it; undefined where nothing was written. Nothing is replaced unasked. */
export async function writeAsked(bytes: Uint8Array, to: Destination): Promise<vscode.Uri | undefined> {
  const { target, mayReplace = askToReplace } = to;
  const file = target ?? (await pick(to));
  if (file === undefined) return undefined;
  // The editor's own dialog has asked already.
  if (target !== undefined && (await isThere(file)) && !(await mayReplace(file))) return undefined;
  try {
    await vscode.workspace.fs.writeFile(file, bytes);
  } catch (thrown) {
    const why = thrown instanceof Error ? thrown.message : String(thrown);
    void vscode.window.showErrorMessage(
      vscode.l10n.t(
        "“{0}” could not be written. Is the folder locked, or the disk full? ({1})",
        nameOf(file),
        why,
      ),
    );
    return undefined;
  }
  void vscode.window.showInformationMessage(vscode.l10n.t("Written: {0}", nameOf(file)));
  return file;
}

/** Whether there is such a file or folder. */
export async function isThere(file: vscode.Uri): Promise<boolean> {
  try {
    await vscode.workspace.fs.stat(file);
    return true;
  } catch {
    return false;
  }
}

/** The last part of an address. */
export function nameOf(file: vscode.Uri): string {
  return file.path.split("/").at(-1) ?? file.path;
}

function pick({ fileName, beside, kind, endings, title }: Destination): Thenable<vscode.Uri | undefined> {
  const folder =
    beside === undefined || beside.scheme === "untitled"
      ? vscode.workspace.workspaceFolders?.[0]?.uri
      : vscode.Uri.joinPath(beside, "..");
  return vscode.window.showSaveDialog({
    ...(folder === undefined ? {} : { defaultUri: vscode.Uri.joinPath(folder, fileName) }),
    filters: { [kind]: [...endings] },
    title,
  });
}

async function askToReplace(file: vscode.Uri): Promise<boolean> {
  const replace = vscode.l10n.t("Replace");
  const answer = await vscode.window.showWarningMessage(
    vscode.l10n.t("“{0}” is there already. Replace it?", nameOf(file)),
    { modal: true },
    replace,
  );
  return answer === replace;
}
