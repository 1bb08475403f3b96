import { BrowserMessageReader, BrowserMessageWriter, createConnection } from "vscode-languageserver/browser";
import { joinedEngraver } from "./join-engraver";
import { isServerJoin, type Port, type WorkerScope } from "./protocol/joining";
import { serve } from "./serve";

// Inside a worker the global scope is the port to the editor.
const scope = globalThis as unknown as Worker;

/** The channel to the engraver comes before anything else, and is nothing that the connection's reader would know. */
const joined = new Promise<Port>((resolve) => {
  (globalThis as unknown as WorkerScope).addEventListener("message", (event) => {
    const { data } = event;
    if (!isServerJoin(data)) return;
    event.stopImmediatePropagation();
    resolve(data.port);
  });
});

/** Timers of a browser wait four milliseconds where they are nested; a message to oneself does not. */
const { port1, port2 } = new MessageChannel();
const waiting: (() => void)[] = [];
Object.assign(port2, { onmessage: () => waiting.shift()?.() });

serve(createConnection(new BrowserMessageReader(scope), new BrowserMessageWriter(scope)), {
  now: () => performance.now(),
  turn: () =>
    new Promise((resolve) => {
      waiting.push(resolve);
      port1.postMessage(undefined);
    }),
  disk: undefined,
  engraver: joinedEngraver(joined),
});
