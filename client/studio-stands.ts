import * as vscode from "vscode";

/**
 * Says that a studio stands. Where its folder is not open, the term is there as a single file, without its neighbours
 * in the explorer; then opening the folder is offered.
 */
export async function tellStudioStands(folder: vscode.Uri): Promise<void> {
  const words = vscode.l10n.t(
    "Your studio stands: the term is open, and the book and the players lie beside it.",
  );
  if (vscode.workspace.getWorkspaceFolder(folder) !== undefined) {
    await vscode.window.showInformationMessage(words);
    return;
  }
  const open = vscode.l10n.t("Open the Folder");
  const chosen = await vscode.window.showInformationMessage(words, open);
  if (chosen === open) await vscode.commands.executeCommand("vscode.openFolder", folder);
}
