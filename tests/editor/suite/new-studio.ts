import * as vscode from "vscode";
import type { NewStudioParams } from "../../../server/protocol/requests";
import { has, same } from "./expectations";
import { leadpipe } from "./leadpipe";
import { at, folder, hoverWith, put } from "./plans";
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
  for (const file of files) {
    // What is only told, such as a note, may come later; nothing of this has come at all.
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
