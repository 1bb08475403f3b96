import * as vscode from "vscode";
import type { BaseLanguageClient, LanguageClientOptions } from "vscode-languageclient";

/** Which documents the server is asked about: all of the language, whatever file system they are on. */
export const clientOptions: LanguageClientOptions = { documentSelector: [{ language: "practice" }] };

/** What the extension hands to those who ask for its exports. */
export interface Exports {
  /** Resolves once the server has answered its first request. */
  readonly ready: Promise<void>;
}

/** Puts everything a person sees in place, over a client that either host made. */
export function show(context: vscode.ExtensionContext, client: BaseLanguageClient): Exports {
  const status = vscode.window.createStatusBarItem("practice.status", vscode.StatusBarAlignment.Left, 10);
  status.name = "Practice";
  status.text = "$(music) Practice";
  status.command = "practice.hello";
  status.show();
  context.subscriptions.push(
    client,
    status,
    vscode.commands.registerCommand("practice.hello", () =>
      vscode.window.showInformationMessage("Hello, brass."),
    ),
    vscode.commands.registerCommand("practice.panel", () => openPanel()),
    vscode.window.registerTreeDataProvider("practice.outline", {
      getChildren: () => ["long_tones", "lip_slurs"],
      getTreeItem: (name: string) => new vscode.TreeItem(name),
    }),
  );
  return { ready: client.start() };
}

/** A webview whose script proves that scripts run. */
function openPanel(): void {
  const panel = vscode.window.createWebviewPanel(
    "practice.panel",
    "Practice picture",
    vscode.ViewColumn.Beside,
    {
      enableScripts: true,
    },
  );
  panel.webview.html = `<!DOCTYPE html><html><head>
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; script-src 'nonce-n'; style-src 'unsafe-inline'">
</head><body style="color:var(--vscode-foreground)"><h1 id="h">waiting</h1>
<script nonce="n">document.getElementById("h").textContent = "scripts run";</script></body></html>`;
}
