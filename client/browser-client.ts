import { BrowserMessageReader, BrowserMessageWriter, LanguageClient } from "vscode-languageclient/browser";
import type { EngraverJoin, ServerJoin } from "../server/protocol/joining";
import { CLIENT_ID, CLIENT_NAME, clientOptions, madeClient } from "./client-options";
import type { ClientWishes, MadeClient } from "./host";

/** A worker that ends does not say so: its reader must be told. */
class WorkerReader extends BrowserMessageReader {
  closed(): void {
    this.fireClose();
  }
}

/** Where the scripts of the workers lie, and the folder of verovio's modules without a slash at its end. */
export interface WorkerScripts {
  readonly server: string;
  readonly engraver: string;
  readonly verovio: string;
}

/** A client whose server is a worker, and beside it a worker that engraves for every server there will be. */
export function makeBrowserClient(scripts: WorkerScripts, wishes: ClientWishes): MadeClient {
  const engraver = new Worker(scripts.engraver);
  engraver.addEventListener("error", (event) => wishes.output.warn(event.message));

  let running: { readonly worker: Worker; readonly reader: WorkerReader } | undefined;
  const endServer = (): void => {
    running?.worker.terminate();
    running?.reader.closed();
  };
  const start = () => {
    // One that was asked to stop may live on. Nobody listens to it any more, so nobody is told of its end.
    running?.worker.terminate();
    const worker = new Worker(scripts.server);
    const { port1, port2 } = new MessageChannel();
    const engraverJoin: EngraverJoin<MessagePort> = {
      join: "engraver",
      port: port1,
      verovio: scripts.verovio,
    };
    engraver.postMessage(engraverJoin, [port1]);
    const serverJoin: ServerJoin<MessagePort> = { join: "server", port: port2 };
    worker.postMessage(serverJoin, [port2]);
    const reader = new WorkerReader(worker);
    running = { worker, reader };
    // What was thrown and not caught leaves a worker in a state that nobody knows.
    worker.addEventListener("error", (event) => {
      wishes.output.warn(event.message);
      if (running?.worker === worker) endServer();
    });
    return Promise.resolve({ reader, writer: new BrowserMessageWriter(worker) });
  };
  const client = new LanguageClient(CLIENT_ID, CLIENT_NAME, start, clientOptions(wishes));
  return madeClient(client, endServer);
}
