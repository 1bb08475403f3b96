import * as vscode from "vscode";
import type { BaseLanguageClient } from "vscode-languageclient";
import { SIZE_LIMIT, utf8 } from "../server/protocol/plan-text";
import {
  FILES_REQUEST,
  type FilesParams,
  type FilesResult,
  TEXT_REQUEST,
  type TextParams,
  type TextResult,
} from "../server/protocol/requests";

/** Hidden folders, and those of programs, as where the server reads the disk itself. */
const PASSED_OVER = "{**/.*/**,**/node_modules/**}";

/** Folders deeper than this, or more entries than these, are no studio's. */
const DEEPEST = 12;
const MOST_ENTRIES = 20_000;

/**
 * Answers the server for files that are on no disk of its own, all of them in a browser: which plan files there are,
 * and what stands in them.
 */
export function answerFileRequests(client: BaseLanguageClient): vscode.Disposable[] {
  return [
    client.onRequest(FILES_REQUEST, async ({ folders }: FilesParams): Promise<FilesResult> => {
      const found = await Promise.all(folders.map((folder) => plansUnder(vscode.Uri.parse(folder))));
      return [...new Set(found.flat().map((uri) => uri.toString()))];
    }),
    client.onRequest<TextResult, unknown>(TEXT_REQUEST, ({ uri }: TextParams) =>
      textOf(vscode.Uri.parse(uri)),
    ),
  ];
}

/** The plan files of a folder and below: found by the editor where it has the folder open, else by walking. */
export async function plansUnder(folder: vscode.Uri): Promise<readonly vscode.Uri[]> {
  if (vscode.workspace.getWorkspaceFolder(folder) !== undefined) {
    return vscode.workspace.findFiles(new vscode.RelativePattern(folder, "**/*.practice"), PASSED_OVER);
  }
  const found: vscode.Uri[] = [];
  let entries = 0;
  const walk = async (at: vscode.Uri, depth: number): Promise<void> => {
    if (depth > DEEPEST || entries > MOST_ENTRIES) return;
    for (const [name, type] of await listing(at)) {
      entries++;
      const uri = vscode.Uri.joinPath(at, name);
      if ((type & vscode.FileType.Directory) !== 0) {
        // Links may lead in circles.
        const linked = (type & vscode.FileType.SymbolicLink) !== 0;
        if (!linked && !name.startsWith(".") && name !== "node_modules") await walk(uri, depth + 1);
      } else if (name.endsWith(".practice")) found.push(uri);
    }
  };
  await walk(folder, 0);
  return found;
}

/** What is in a folder; nothing where it cannot be looked into. */
async function listing(folder: vscode.Uri): Promise<readonly [string, vscode.FileType][]> {
  try {
    return await vscode.workspace.fs.readDirectory(folder);
  } catch {
    return [];
  }
}

/** What stands in a file, or why nothing can be read of it. */
export async function textOf(uri: vscode.Uri): Promise<TextResult> {
  try {
    const { size } = await vscode.workspace.fs.stat(uri);
    if (size > SIZE_LIMIT) return { trouble: "too-large" };
    const text = utf8(await vscode.workspace.fs.readFile(uri));
    return text === undefined ? { trouble: "not-text" } : { text };
  } catch (thrown) {
    const missing = thrown instanceof vscode.FileSystemError && thrown.code === "FileNotFound";
    return { trouble: missing ? "missing" : "unreadable" };
  }
}
