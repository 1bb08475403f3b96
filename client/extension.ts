import type { ExtensionContext } from "vscode";
import { activateIn, type Leadpipe } from "./activate";
import { ServerProcesses } from "./server-process";

/** Starts the extension where Node is: the server is a process of its own. */
export function activate(context: ExtensionContext): Leadpipe {
  const processes = new ServerProcesses(context.asAbsolutePath("dist/server.cjs"));
  return activateIn(context, {
    makeClient: async (wishes) => {
      // The server comes up while the client is being loaded.
      processes.startAhead();
      const { makeNodeClient } = await import("./node-client");
      return makeNodeClient(processes, wishes);
    },
  });
}
