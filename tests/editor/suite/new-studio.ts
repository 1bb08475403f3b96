import * as vscode from "vscode";
import type { NewStudioParams } from "../../../server/protocol/requests";
import { has, same } from "./expectations";
import { leadpipe } from "./leadpipe";
import { at, finding, folder, gone, hoverWith, put, show } from "./plans";
import { when } from "./when";

export const ANSWERS: NewStudioParams = {
  level: "Third years",
  stage: "years 2 to 3",
  instrument: "cornet in Bb",
  daysPerWeek: 4,
  minutes: 20,
  from: "2026-09-09",
  weeks: 10,
};

/** Starts a new studio in a folder and waits until its term has been read with the files it uses. */
export async function studioIn(target: vscode.Uri): Promise<readonly vscode.Uri[]> {
  const pipe = await leadpipe();
  const files = await vscode.commands.executeCommand<readonly vscode.Uri[] | undefined>(
    "leadpipe.newStudio",
    target,
    ANSWERS,
  );
  if (files === undefined) throw new Error("nothing was written");
  same(files.length, 4);
  const editor = vscode.window.activeTextEditor;
  if (editor === undefined) throw new Error("the term is not shown");
  has(editor.document.uri.path, "first-term.practice");
  put(editor, '"Level road"');
  await vscode.commands.executeCommand("leadpipe.showTerm");
  await when(
    pipe.onDidRefreshTerm,
    () => (pipe.term()?.title === "First term" && (pipe.term()?.weeks.length ?? 0) >= 10) || undefined,
    "the first term in the side view",
    () => [JSON.stringify(pipe.term()?.title ?? null)],
  );
  await hoverWith(editor.document.uri, at(editor.document, '"Level road"', 3), "Articulation");
  for (const file of files) await checkedAfresh(file);
  for (const file of files) {
    same(
      vscode.languages
        .getDiagnostics(file)
        .map((each) => each.message)
        .join(" / "),
      "",
    );
  }
  return files;
}

/**
 * Resolves once the findings of a file are those of its text as it stands: a line that cannot be meant is marked, and
 * its mark goes with it. Of a file that nothing is found in, nothing else would ever be heard.
 */
async function checkedAfresh(uri: vscode.Uri): Promise<void> {
  const { document } = await show(uri);
  const { line } = document.lineAt(document.lineCount - 1).range.end;
  const strange = (each: vscode.Diagnostic): boolean => each.range.end.line > line;
  const edit = new vscode.WorkspaceEdit();
  edit.insert(uri, document.lineAt(line).range.end, "\n\nterm\n");
  await vscode.workspace.applyEdit(edit);
  await finding(uri, "a line that cannot be meant", strange);
  await vscode.commands.executeCommand("undo");
  await gone(uri, "a line that cannot be meant", strange);
  await document.save();
}

/** The files stand, check clean, and stay as they are where the command is given again. */
export async function newStudio(): Promise<void> {
  const target = vscode.Uri.joinPath(folder(), "new");
  const [studio] = await studioIn(target);
  if (studio === undefined) throw new Error("no studio file");
  const mine = new TextEncoder().encode("# mine\n");
  await vscode.workspace.fs.writeFile(studio, mine);
  const again = await vscode.commands.executeCommand("leadpipe.newStudio", target, ANSWERS);
  same(again === undefined || again === null, true);
  same(new TextDecoder().decode(await vscode.workspace.fs.readFile(studio)), "# mine\n");
  await vscode.commands.executeCommand("workbench.action.closeAllEditors");
  await vscode.workspace.fs.delete(target, { recursive: true });
}
