import * as vscode from "vscode";
import { has } from "./expectations";
import { leadpipe } from "./leadpipe";
import { studioIn } from "./new-studio";
import { at, codeOf, finding, hoverWith } from "./plans";
import { SampleFiles } from "./sample-files";

/** A studio that lies in memory alone: the server is told its files by the editor. */
export async function noDisk(): Promise<void> {
  const registered = vscode.workspace.registerFileSystemProvider("sample", new SampleFiles(), {
    isCaseSensitive: true,
  });
  try {
    await studioIn(vscode.Uri.parse("sample:/studio"));
    await vscode.commands.executeCommand("workbench.action.closeAllEditors");
  } finally {
    registered.dispose();
  }
}

/** A plan that lies nowhere yet. */
export async function neverSaved(): Promise<void> {
  await leadpipe();
  const content = `area "Songs"
exercise "Too high" {
  in "Songs"  key C major  meter 4/4  tempo 1/4 = 60
  music { 1/1 C5 | 1/2 C5 | }
}
`;
  const document = await vscode.workspace.openTextDocument({ language: "practice", content });
  await vscode.window.showTextDocument(document);
  await hoverWith(document.uri, at(document, '"Too high"', 3), "Songs");
  const short = await finding(document.uri, "a bar too short", (each) => codeOf(each) === "bar-length");
  has(short.message, "4/4");
}
