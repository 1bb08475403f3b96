import * as vscode from "vscode";
import { when } from "./when";

/** The folder that the editor was opened with: a copy of the sample studio. */
export function folder(): vscode.Uri {
  const [first] = vscode.workspace.workspaceFolders ?? [];
  if (first === undefined) throw new Error("no folder is open");
  return first.uri;
}

/** A file of the sample studio. */
export function sample(...path: readonly string[]): vscode.Uri {
  return vscode.Uri.joinPath(folder(), ...path);
}

/** Opens a plan in front. */
export async function show(uri: vscode.Uri): Promise<vscode.TextEditor> {
  return vscode.window.showTextDocument(await vscode.workspace.openTextDocument(uri));
}

/** The place of a text in a document; the cursor may be asked for some letters into it. */
export function at(document: vscode.TextDocument, text: string, into = 0): vscode.Position {
  const offset = document.getText().indexOf(text);
  if (offset < 0) throw new Error(`${JSON.stringify(text)} does not stand in ${document.uri.path}`);
  return document.positionAt(offset + into);
}

/** Puts the cursor of an editor at a text. */
export function put(editor: vscode.TextEditor, text: string, into = 0): void {
  const position = at(editor.document, text, into);
  editor.selection = new vscode.Selection(position, position);
  editor.revealRange(editor.selection);
}

/** The code of a finding as `let … stand` writes it. */
export function codeOf({ code }: vscode.Diagnostic): string {
  return String(typeof code === "object" ? code.value : (code ?? ""));
}

/** The first finding of a document that answers a question, once there is one. */
export function finding(
  uri: vscode.Uri,
  what: string,
  is: (finding: vscode.Diagnostic) => boolean,
): Promise<vscode.Diagnostic> {
  return when(
    vscode.languages.onDidChangeDiagnostics,
    () => vscode.languages.getDiagnostics(uri).find(is),
    `${what} in ${uri.path}`,
    () => vscode.languages.getDiagnostics(uri).map((each) => each.message),
  );
}

/** Resolves once no finding of a document answers a question any more. */
export async function gone(
  uri: vscode.Uri,
  what: string,
  is: (finding: vscode.Diagnostic) => boolean,
): Promise<void> {
  await when(
    vscode.languages.onDidChangeDiagnostics,
    () => (vscode.languages.getDiagnostics(uri).some(is) ? undefined : true),
    `the end of ${what} in ${uri.path}`,
  );
}

/** How long a hover is asked for: a file that was just opened or changed may not have been read yet. */
const PATIENCE_MS = 15_000;

/** The words of the hovers at a place, once they hold a part; asked again as a pointer that stays there would. */
export async function hoverWith(uri: vscode.Uri, position: vscode.Position, part: string): Promise<string> {
  const begun = performance.now();
  let words = "";
  while (performance.now() - begun < PATIENCE_MS) {
    const hovers = await vscode.commands.executeCommand<vscode.Hover[]>(
      "vscode.executeHoverProvider",
      uri,
      position,
    );
    words = hovers
      .flatMap((hover) => hover.contents)
      .map((content) => (typeof content === "string" ? content : content.value))
      .join("\n");
    if (words.includes(part)) return words;
  }
  throw new Error(`no ${JSON.stringify(part)} in the hover ${JSON.stringify(words)}`);
}

/** The labels of what is offered at a place. */
export async function offeredAt(uri: vscode.Uri, position: vscode.Position): Promise<readonly string[]> {
  const { items } = await vscode.commands.executeCommand<vscode.CompletionList>(
    "vscode.executeCompletionItemProvider",
    uri,
    position,
  );
  return items.map(({ label }) => (typeof label === "string" ? label : label.label));
}

/** Resolves once the text of a document is this one. */
export async function textBecomes(document: vscode.TextDocument, text: string): Promise<void> {
  await when(
    vscode.workspace.onDidChangeTextDocument,
    () => document.getText() === text || undefined,
    `the text of ${document.uri.path}`,
  );
}
