import * as vscode from "vscode";

/** Says that the server gave no answer; what was asked for leaves off there. */
export function tellNotReady(): undefined {
  void vscode.window.showWarningMessage(
    vscode.l10n.t("Leadpipe is not ready. Nothing was written; try again in a moment."),
  );
}
