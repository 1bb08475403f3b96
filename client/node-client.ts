import type { ChildProcess } from "node:child_process";
import { IPCMessageReader, IPCMessageWriter, LanguageClient } from "vscode-languageclient/node";
import { CLIENT_ID, CLIENT_NAME, clientOptions, madeClient } from "./client-options";
import type { ClientWishes, MadeClient } from "./host";
import type { ServerProcesses } from "./server-process";

/** A client whose server is a process of its own. */
export function makeNodeClient(processes: ServerProcesses, wishes: ClientWishes): MadeClient {
  let child: ChildProcess | undefined;
  const start = () => {
    child = processes.take();
    for (const stream of [child.stdout, child.stderr]) {
      stream?.setEncoding("utf8");
      stream?.on("data", (text: string) => wishes.output.warn(text.trimEnd()));
    }
    return Promise.resolve({ reader: new IPCMessageReader(child), writer: new IPCMessageWriter(child) });
  };
  const client = new LanguageClient(CLIENT_ID, CLIENT_NAME, start, clientOptions(wishes));
  return madeClient(client, () => void child?.kill("SIGKILL"));
}
