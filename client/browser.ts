import { type ExtensionContext, Uri } from "vscode";
import { BrowserMessageReader, BrowserMessageWriter, LanguageClient } from "vscode-languageclient/browser";
import { activateIn, type Leadpipe } from "./activate";
import { CLIENT_ID, CLIENT_NAME, type Host, type RunningServer } from "./host";

/** Starts the extension where there is only a browser: the server is a worker. */
export function activate(context: ExtensionContext): Leadpipe {
  const script = Uri.joinPath(context.extensionUri, "dist/worker.js").toString(true);
  const host: Host = {
    startServer: (tell) => startWorker(script, tell),
    clientFor: (options, start) => new LanguageClient(CLIENT_ID, CLIENT_NAME, start, options),
  };
  return activateIn(context, host);
}

/** A worker that ends does not say so: its reader must be told. */
class WorkerReader extends BrowserMessageReader {
  closed(): void {
    this.fireClose();
  }
}

function startWorker(script: string, tell: (line: string) => void): RunningServer {
  const worker = new Worker(script);
  const reader = new WorkerReader(worker);
  const end = (): void => {
    worker.terminate();
    reader.closed();
  };
  // What was thrown and not caught leaves a worker in a state that nobody knows.
  worker.addEventListener("error", (event) => {
    tell(event.message);
    end();
  });
  return { transports: { reader, writer: new BrowserMessageWriter(worker) }, end };
}
