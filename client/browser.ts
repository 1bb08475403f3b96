import { type ExtensionContext, Uri } from "vscode";
import { activateIn, type Leadpipe } from "./activate";

/** Starts the extension where there is only a browser: the server is a worker. */
export function activate(context: ExtensionContext): Leadpipe {
  const script = Uri.joinPath(context.extensionUri, "dist/worker.js").toString(true);
  return activateIn(context, {
    makeClient: async (wishes) => {
      const { makeBrowserClient } = await import("./browser-client");
      return makeBrowserClient(script, wishes);
    },
  });
}
