import * as vscode from "vscode";
import { when } from "./when";

/** The findings of a document, once there are as many as expected. */
export function findingsOf(uri: vscode.Uri, count: number): Promise<readonly vscode.Diagnostic[]> {
  return when(
    vscode.languages.onDidChangeDiagnostics,
    () => {
      const found = vscode.languages.getDiagnostics(uri);
      return found.length === count ? found : undefined;
    },
    `${count} findings in ${uri.path}`,
  );
}
