import { BrowserMessageReader, BrowserMessageWriter, createConnection } from "vscode-languageserver/browser";
import { serve } from "./serve";

// Inside a worker the global scope is the port to the client.
const scope = globalThis as unknown as Worker;
serve(createConnection(new BrowserMessageReader(scope), new BrowserMessageWriter(scope)), "browser");
