import * as vscode from "vscode";
import { same } from "./expectations";
import { leadpipe } from "./leadpipe";
import { codeOf, finding, folder, gone } from "./plans";
import { when } from "./when";

/** Changes the opened folders, and waits until the editor has. */
async function changeFolders(begin: number, remove: number, ...add: readonly vscode.Uri[]): Promise<void> {
  const wanted = (vscode.workspace.workspaceFolders ?? []).length - remove + add.length;
  const changed = vscode.workspace.updateWorkspaceFolders(begin, remove, ...add.map((uri) => ({ uri })));
  same(changed, true);
  await when(
    vscode.workspace.onDidChangeWorkspaceFolders,
    () => vscode.workspace.workspaceFolders?.length === wanted || undefined,
    `${wanted} open folders`,
  );
}

/** The plans of a second folder are checked when it is opened beside the first, and let go of when it is closed. */
export async function severalFolders(): Promise<void> {
  await leadpipe();
  const second = vscode.Uri.joinPath(folder(), "..", "second-studio");
  const plan = vscode.Uri.joinPath(second, "plan.practice");
  await vscode.workspace.fs.writeFile(plan, new TextEncoder().encode('use "nowhere.practice"\n'));
  try {
    same(vscode.languages.getDiagnostics(plan).length, 0);
    await changeFolders(1, 0, second);
    const missing = (each: vscode.Diagnostic): boolean => codeOf(each) === "use-missing";
    await finding(plan, "a file that is missing", missing);
    await changeFolders(1, 1);
    await gone(plan, "what was found in a folder that is closed", () => true);
  } finally {
    await vscode.workspace.fs.delete(second, { recursive: true });
  }
}
