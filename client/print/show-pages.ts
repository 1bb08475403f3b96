import * as vscode from "vscode";
import { nameOf } from "../write-asked";

/** Says what was written, with what is to be said of it, and offers to open it or to show where it lies. */
export async function tellOfPages(files: readonly vscode.Uri[], remarks: readonly string[]): Promise<void> {
  const [first, ...more] = files;
  if (first === undefined) return;
  const written =
    more.length === 0
      ? vscode.l10n.t("Written: {0}", nameOf(first))
      : vscode.l10n.t("Written: {0} and {1} more", nameOf(first), more.length);
  const [open, show] = [vscode.l10n.t("Open"), vscode.l10n.t("Show in Folder")];
  const offered = more.length === 0 && canOpen(first) ? [open, show] : [show];
  const chosen =
    remarks.length === 0
      ? await vscode.window.showInformationMessage(written, ...offered)
      : await vscode.window.showWarningMessage([written, ...remarks].join(" · "), ...offered);
  if (chosen === open) await openPages(first);
  else if (chosen === show) {
    await vscode.commands.executeCommand(isHere(first) ? "revealFileInOS" : "revealInExplorer", first);
  }
}

/**
 * Opens pages with whatever opens such files on this computer. Where the file lies elsewhere, pages for a browser are
 * shown in a tab, and PDF in the editor that was installed for it.
 */
async function openPages(file: vscode.Uri): Promise<void> {
  if (isHere(file)) {
    await vscode.env.openExternal(file);
    return;
  }
  if (!file.path.endsWith(".html")) {
    await vscode.commands.executeCommand("vscode.open", file);
    return;
  }
  const html = new TextDecoder().decode(await vscode.workspace.fs.readFile(file));
  const panel = vscode.window.createWebviewPanel("leadpipe.pages", nameOf(file), vscode.ViewColumn.Active, {
    enableScripts: false,
    enableFindWidget: true,
    localResourceRoots: [],
  });
  panel.webview.html = html;
}

/** Whether opening a file shows its pages: an editor that knows no PDF would show what they are written with. */
function canOpen(file: vscode.Uri): boolean {
  return isHere(file) || file.path.endsWith(".html") || vscode.extensions.all.some(showsPdf);
}

function showsPdf({ packageJSON }: { readonly packageJSON: unknown }): boolean {
  if (typeof packageJSON !== "object" || packageJSON === null || !("contributes" in packageJSON))
    return false;
  const { contributes } = packageJSON;
  return (
    typeof contributes === "object" &&
    contributes !== null &&
    "customEditors" in contributes &&
    JSON.stringify(contributes.customEditors).toLowerCase().includes(".pdf")
  );
}

/** Whether a file lies on the computer that the editor's window is on. */
function isHere({ scheme }: vscode.Uri): boolean {
  return (
    scheme === "file" && vscode.env.uiKind === vscode.UIKind.Desktop && vscode.env.remoteName === undefined
  );
}
