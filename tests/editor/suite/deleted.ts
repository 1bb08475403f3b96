import * as vscode from "vscode";
import { same } from "./expectations";
import { leadpipe } from "./leadpipe";
import { codeOf, finding, folder, gone, show } from "./plans";
import { when } from "./when";

/** Opens a file as a person does. One that an extension asked for is kept in mind for minutes after it is closed. */
async function opened(uri: vscode.Uri): Promise<vscode.TextEditor> {
  await vscode.commands.executeCommand("vscode.open", uri);
  const shown = (): vscode.TextEditor | undefined => {
    const { activeTextEditor } = vscode.window;
    return activeTextEditor?.document.uri.path === uri.path ? activeTextEditor : undefined;
  };
  return when(vscode.window.onDidChangeActiveTextEditor, shown, `${uri.path} in front`);
}

/**
 * A book that is deleted while it is open is what the editor shows of it until it is closed; then the plan that uses it
 * is told that there is none.
 */
export async function deletedWhileOpen(): Promise<void> {
  await leadpipe();
  const lent = vscode.Uri.joinPath(folder(), "lent");
  const book = vscode.Uri.joinPath(lent, "book.practice");
  const plan = vscode.Uri.joinPath(lent, "plan.practice");
  const write = (uri: vscode.Uri, text: string): Thenable<void> =>
    vscode.workspace.fs.writeFile(uri, new TextEncoder().encode(text));
  await write(book, 'area "Lent"\n');
  // The exercise without music is marked, so that something is heard of this plan from the start.
  await write(plan, 'use "book.practice"\n\nexercise "On loan" {\n  in "Lent"\n}\n');
  const missing = (each: vscode.Diagnostic): boolean => codeOf(each) === "use-missing";
  try {
    await show(plan);
    const editor = await opened(book);
    await finding(plan, "what an exercise without music has", (each) => !missing(each));
    const name = (text: string): Thenable<boolean> =>
      editor.edit((edit) => edit.replace(editor.document.lineAt(0).range, `area "${text}"`));
    const unknown = (each: vscode.Diagnostic): boolean => codeOf(each) === "unknown-name";
    // Edited and not saved, it stays open when its file goes.
    await name("Borrowed");
    await finding(plan, "an area that is gone", unknown);
    await vscode.workspace.fs.delete(book);
    await name("Lent");
    await gone(plan, "an area that is gone", unknown);
    same(vscode.languages.getDiagnostics(plan).some(missing), false);
    await vscode.commands.executeCommand("workbench.action.revertAndCloseActiveEditor");
    await finding(plan, "a book that is missing", missing);
  } finally {
    await vscode.commands.executeCommand("workbench.action.closeAllEditors");
    await vscode.workspace.fs.delete(lent, { recursive: true });
  }
}
