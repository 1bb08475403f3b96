import * as vscode from "vscode";
import { has, same } from "./expectations";
import { leadpipe } from "./leadpipe";
import { at, hoverWith, offeredAt, sample, show, textBecomes } from "./plans";

/** What can stand at the cursor is offered. */
export async function completion(): Promise<void> {
  await leadpipe();
  const uri = sample("2026-27", "summer.practice");
  const editor = await show(uri);
  const { document } = editor;
  const line = '"From the bridge"  in C  for 10 min';
  const keys = await offeredAt(uri, at(document, line, line.indexOf("C")));
  for (const key of ["C", "B♭"])
    if (!keys.includes(key)) throw new Error(`no ${key} among: ${keys.join(", ")}`);

  // A name is begun on a line of its own.
  const before = document.getText();
  const end = document.lineAt(at(document, line).line).range.end;
  await editor.edit((edit) => edit.insert(end, '\n      "Last'));
  const names = await offeredAt(uri, new vscode.Position(end.line + 1, '      "Last'.length));
  has(names.join(" / "), "Last light");
  const restored = textBecomes(document, before);
  await vscode.commands.executeCommand("undo");
  await restored;
}

/** A name is explained where it stands. */
export async function hover(): Promise<void> {
  await leadpipe();
  const uri = sample("2026-27", "summer.practice");
  const { document } = await show(uri);
  const words = await hoverWith(uri, at(document, '"From the bridge"  in', 3), "Long tones");
  has(words, "From the bridge");
}

/** An exercise of the book gets another name, in the book and in every plan that asks for it; then its own again. */
export async function rename(): Promise<void> {
  await leadpipe();
  const uri = sample("book.practice");
  const { document } = await show(uri);
  const renamed = async (from: string, to: string): Promise<readonly vscode.Uri[]> => {
    const edit = await vscode.commands.executeCommand<vscode.WorkspaceEdit>(
      "vscode.executeDocumentRenameProvider",
      uri,
      at(document, `exercise "${from}"`, 'exercise "'.length + 1),
      to,
    );
    const files = edit.entries().map(([file]) => file);
    same(await vscode.workspace.applyEdit(edit), true);
    return files;
  };
  const files = await renamed("Last light", "Lantern out");
  const names = files.map((file) => file.path.split("/").slice(-2).join("/"));
  for (const name of ["book.practice", "autumn.practice", "summer.practice"]) has(names.join(" "), name);
  for (const file of files) {
    const text = (await vscode.workspace.openTextDocument(file)).getText();
    has(text, '"Lantern out"');
    same(text.includes('"Last light"'), false);
  }
  const back = await renamed("Lantern out", "Last light");
  same(back.length, files.length);
}

/** The terms of a plan, and what stands in them, are listed. */
export async function outline(): Promise<void> {
  await leadpipe();
  const uri = sample("2026-27", "summer.practice");
  const symbols = await vscode.commands.executeCommand<vscode.DocumentSymbol[]>(
    "vscode.executeDocumentSymbolProvider",
    uri,
  );
  const names = symbols.map((symbol) => symbol.name).join(" / ");
  has(names, "Summer 2027, seniors");
  has(names, "From the bridge");
  const term = symbols.find((symbol) => symbol.name.includes("Summer 2027, seniors"));
  same((term?.children.length ?? 0) > 0, true);
}
