import * as vscode from "vscode";
import { extensionId } from "../extension-id";
import { type Check, runChecks } from "./checks";
import { has, same } from "./expectations";
import { findingsOf } from "./findings-of";
import { SampleFiles } from "./sample-files";
import { when } from "./when";

const text = "long_tones 10\nplay louder here\nlong_tones 5\n";

/** The words of the hovers at a place. */
async function hoverAt(uri: vscode.Uri, line: number, character: number): Promise<string> {
  const hovers = await vscode.commands.executeCommand<vscode.Hover[]>(
    "vscode.executeHoverProvider",
    uri,
    new vscode.Position(line, character),
  );
  return hovers
    .flatMap((hover) => hover.contents)
    .map((content) => (typeof content === "string" ? content : content.value))
    .join("\n");
}

/** What every kind of document must answer. */
async function answers(document: vscode.TextDocument): Promise<void> {
  same(document.languageId, "practice");
  const extension = vscode.extensions.getExtension(extensionId);
  if (!extension) throw new Error("the extension is not installed");
  await ((await extension.activate()) as { readonly ready: Promise<void> }).ready;
  has(await hoverAt(document.uri, 0, 3), typeof process === "undefined" ? "browser host" : "node host");
}

const checks: Check[] = [
  {
    title: "hover in an untitled document",
    async run() {
      await answers(await vscode.workspace.openTextDocument({ language: "practice", content: text }));
    },
  },
  {
    title: "hover in a file of the workspace",
    async run() {
      const folder = vscode.workspace.workspaceFolders?.[0];
      if (!folder) throw new Error("no folder is open");
      console.log(`        folder ${folder.uri.toString()}`);
      await answers(
        await vscode.workspace.openTextDocument(vscode.Uri.joinPath(folder.uri, "week.practice")),
      );
    },
  },
  {
    title: "files of the workspace are found and watched",
    async run() {
      const folder = vscode.workspace.workspaceFolders?.[0];
      if (!folder) throw new Error("no folder is open");
      const found = await vscode.workspace.findFiles("**/*.practice");
      same(found.map((uri) => uri.path.split("/").at(-1)).join(), "week.practice");
      const watcher = vscode.workspace.createFileSystemWatcher("**/*.practice");
      const made = vscode.Uri.joinPath(folder.uri, "made.practice");
      let seen: string | undefined;
      watcher.onDidCreate((uri) => {
        seen = uri.path;
      });
      // The watcher is asked for across processes, so one write may come too early: each event is looked at anew.
      const coming = when(watcher.onDidCreate, () => seen, "the new file's event");
      await vscode.workspace.fs.writeFile(made, new TextEncoder().encode("hymns 5\n"));
      same(await coming, made.path);
      await vscode.workspace.fs.delete(made);
      watcher.dispose();
    },
  },
  {
    title: "hover in a file of a file system in memory",
    async run() {
      const files = new SampleFiles();
      const registered = vscode.workspace.registerFileSystemProvider("sample", files, {
        isCaseSensitive: true,
      });
      const uri = vscode.Uri.parse("sample:/week.practice");
      await vscode.workspace.fs.writeFile(uri, new TextEncoder().encode(text));
      const document = await vscode.workspace.openTextDocument(uri);
      await answers(document);
      await vscode.window.showTextDocument(document);
      registered.dispose();
    },
  },
  {
    title: "finding, quick fix, undo, redo",
    async run() {
      const document = await vscode.workspace.openTextDocument({ language: "practice", content: text });
      await vscode.window.showTextDocument(document);
      const [finding] = await findingsOf(document.uri, 1);
      const actions = await vscode.commands.executeCommand<vscode.CodeAction[]>(
        "vscode.executeCodeActionProvider",
        document.uri,
        finding!.range,
        vscode.CodeActionKind.QuickFix.value,
      );
      const edit = actions[0]?.edit;
      if (!edit) throw new Error(`no fix among ${actions.map((action) => action.title).join(", ")}`);
      await vscode.workspace.applyEdit(edit);
      has(document.getText(), "fuller");
      await findingsOf(document.uri, 0);
      const back = when(
        vscode.workspace.onDidChangeTextDocument,
        () => document.getText() === text || undefined,
        "undo",
      );
      await vscode.commands.executeCommand("undo");
      await back;
      await findingsOf(document.uri, 1);
      await vscode.commands.executeCommand("redo");
      await findingsOf(document.uri, 0);
    },
  },
  {
    title: "rename is one edit and one undo",
    async run() {
      const document = await vscode.workspace.openTextDocument({ language: "practice", content: text });
      await vscode.window.showTextDocument(document);
      const edit = await vscode.commands.executeCommand<vscode.WorkspaceEdit>(
        "vscode.executeDocumentRenameProvider",
        document.uri,
        new vscode.Position(0, 2),
        "hymns",
      );
      await vscode.workspace.applyEdit(edit);
      same(document.getText().match(/hymns/g)?.length, 2);
      await vscode.commands.executeCommand("undo");
      same(document.getText(), text);
    },
  },
  {
    title: "command",
    async run() {
      same((await vscode.commands.getCommands(true)).includes("practice.hello"), true);
    },
  },
];

/** The entry that an editor's test host calls. */
export function run(): Promise<void> {
  console.log(
    `        VS Code ${vscode.version}, ${typeof process === "undefined" ? "no process" : `Node ${process.version}`}`,
  );
  return runChecks(checks);
}
