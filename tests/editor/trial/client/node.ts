import type { ExtensionContext } from "vscode";
import { LanguageClient, TransportKind } from "vscode-languageclient/node";
import { clientOptions, type Exports, show } from "./surface";

/** Starts the extension where Node is: the server is a process of its own. */
export function activate(context: ExtensionContext): Exports {
  const module = context.asAbsolutePath("dist/server.cjs");
  const transport = TransportKind.ipc;
  const client = new LanguageClient(
    "practice",
    "Practice",
    { run: { module, transport }, debug: { module, transport } },
    clientOptions,
  );
  return show(context, client);
}
