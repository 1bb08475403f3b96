import { type ExtensionContext, Uri } from "vscode";
import { LanguageClient } from "vscode-languageclient/browser";
import { clientOptions, type Exports, show } from "./surface";

/** Starts the extension where there is only a browser: the server is a worker. */
export function activate(context: ExtensionContext): Exports {
  const script = Uri.joinPath(context.extensionUri, "dist/web/server.js").toString(true);
  return show(context, new LanguageClient("practice", "Practice", new Worker(script), clientOptions));
}
