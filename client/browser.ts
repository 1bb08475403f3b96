import { type ExtensionContext, Uri } from "vscode";
import { activateIn, type Leadpipe } from "./activate";

/** Starts the extension where there is only a browser: the server is a worker. */
export function activate(context: ExtensionContext): Leadpipe {
  const at = (path: string): string => Uri.joinPath(context.extensionUri, path).toString(true);
  const scripts = {
    server: at("dist/worker.js"),
    engraver: at("dist/engraver-worker.js"),
    verovio: at("dist/verovio"),
  };
  return activateIn(context, {
    makeClient: async (wishes) => {
      const { makeBrowserClient } = await import("./browser-client");
      return makeBrowserClient(scripts, wishes);
    },
  });
}
