import * as vscode from "vscode";
import { EXPORT_REQUEST, type ExportParams, type ExportResult } from "../../server/protocol/requests";
import { planEditor } from "../plan-editor";
import type { ServerKeeper } from "../server-keeper";

const NAMES: Readonly<
  Record<ExportParams["form"], { readonly name: string; readonly endings: readonly string[] }>
> = {
  musicxml: { name: "MusicXML", endings: ["musicxml"] },
  midi: { name: "MIDI", endings: ["mid"] },
  svg: { name: "SVG", endings: ["svg"] },
};

/** What asks before something is written over; those who name the file themselves may bring their own. */
export type MayReplace = (target: vscode.Uri) => Thenable<boolean>;

/**
 * Writes the exercise under the cursor to a file: to the one that a person picks, or to `target`. Resolves with the
 * file, or undefined where nothing was written.
 */
export async function exportMusic(
  keeper: ServerKeeper,
  form: ExportParams["form"],
  target?: vscode.Uri,
  mayReplace: MayReplace = askToReplace,
): Promise<vscode.Uri | undefined> {
  const editor = planEditor();
  if (editor === undefined) {
    void vscode.window.showInformationMessage(
      vscode.l10n.t("Open a plan, and put the cursor into an exercise."),
    );
    return undefined;
  }
  const { line, character } = editor.selection.active;
  const params: ExportParams = {
    uri: editor.document.uri.toString(),
    position: { line, character },
    form,
  };
  const exported = await keeper.ask<ExportResult>(EXPORT_REQUEST, params);
  if (exported === null) return undefined;
  if ("trouble" in exported) {
    void vscode.window.showWarningMessage(exported.trouble);
    return undefined;
  }
  const file = target ?? (await pick(form, editor.document.uri, exported.fileName));
  if (file === undefined) return undefined;
  // The editor's own dialog has asked already.
  if (target !== undefined && (await isThere(file)) && !(await mayReplace(file))) return undefined;
  try {
    await vscode.workspace.fs.writeFile(file, decoded(exported.bytes));
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

function pick(
  form: ExportParams["form"],
  beside: vscode.Uri,
  fileName: string,
): Thenable<vscode.Uri | undefined> {
  const { name, endings } = NAMES[form];
  const folder =
    beside.scheme === "untitled"
      ? vscode.workspace.workspaceFolders?.[0]?.uri
      : vscode.Uri.joinPath(beside, "..");
  return vscode.window.showSaveDialog({
    ...(folder === undefined ? {} : { defaultUri: vscode.Uri.joinPath(folder, fileName) }),
    filters: { [name]: [...endings] },
    title: vscode.l10n.t("Write the Music"),
  });
}

async function isThere(file: vscode.Uri): Promise<boolean> {
  try {
    await vscode.workspace.fs.stat(file);
    return true;
  } catch {
    return false;
  }
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

function nameOf(file: vscode.Uri): string {
  return file.path.split("/").at(-1) ?? file.path;
}

function decoded(text: string): Uint8Array {
  return Uint8Array.from(atob(text), (sign) => sign.charCodeAt(0));
}
