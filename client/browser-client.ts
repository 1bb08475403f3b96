import { BrowserMessageReader, BrowserMessageWriter, LanguageClient } from "vscode-languageclient/browser";
import { CLIENT_ID, CLIENT_NAME, clientOptions, madeClient } from "./client-options";
import type { ClientWishes, MadeClient } from "./host";

/** A worker that ends does not say so: its reader must be told. */
class WorkerReader extends BrowserMessageReader {
  closed(): void {
    this.fireClose();
  }
}

/** A client whose server is a worker. */
export function makeBrowserClient(script: string, wishes: ClientWishes): MadeClient {
  let running: { readonly worker: Worker; readonly reader: WorkerReader } | undefined;
  const endServer = (): void => {
    running?.worker.terminate();
    running?.reader.closed();
  };
  const start = () => {
    // One that was asked to stop may live on. Nobody listens to it any more, so nobody is told of its end.
    running?.worker.terminate();
    const worker = new Worker(script);
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
