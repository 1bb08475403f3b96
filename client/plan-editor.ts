import * as vscode from "vscode";

/** The language of plans, as the manifest registers it. */
export const PLAN_LANGUAGE = "practice";

/** The active editor, where it shows a plan. */
export function planEditor(): vscode.TextEditor | undefined {
  const editor = vscode.window.activeTextEditor;
  return editor?.document.languageId === PLAN_LANGUAGE ? editor : undefined;
}
