import { fork } from "node:child_process";
import type { ExtensionContext } from "vscode";
import { IPCMessageReader, IPCMessageWriter, LanguageClient } from "vscode-languageclient/node";
import { activateIn, type Leadpipe } from "./activate";
import { CLIENT_ID, CLIENT_NAME, type Host, type RunningServer } from "./host";

/** Starts the extension where Node is: the server is a process of its own. */
export function activate(context: ExtensionContext): Leadpipe {
  const script = context.asAbsolutePath("dist/server.cjs");
  const host: Host = {
    startServer: (tell) => startProcess(script, tell),
    clientFor: (options, start) => new LanguageClient(CLIENT_ID, CLIENT_NAME, start, options),
  };
  return activateIn(context, host);
}

function startProcess(script: string, tell: (line: string) => void): RunningServer {
  // Flags of the host's own process, such as those of a debugger, are not the server's.
  const child = fork(script, ["--node-ipc"], { execArgv: [], silent: true });
  for (const stream of [child.stdout, child.stderr]) {
    stream?.setEncoding("utf8");
    stream?.on("data", (text: string) => tell(text.trimEnd()));
  }
  return {
    transports: { reader: new IPCMessageReader(child), writer: new IPCMessageWriter(child) },
    end: () => void child.kill("SIGKILL"),
  };
}
