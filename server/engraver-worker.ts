/**
 * The worker that engraves, where there is only a browser. It is started by the client, since workers of workers are
 * not to be had everywhere, and joined to each server that the client starts by a channel of messages.
 */
import { isRequest } from "./notation/engraving-messages";
import { engravingService, type VerovioModules } from "./notation/engraving-service";
import { isEngraverJoin, type WorkerScope } from "./protocol/joining";

// Inside a worker the global scope is the port to whoever started it.
const scope = globalThis as unknown as WorkerScope;
let folder = "";

const answer = engravingService(async (): Promise<VerovioModules> => {
  // Only when it runs is it known where the package lies.
  const [wasm, esm] = await Promise.all([
    import(`${folder}/verovio-module.mjs`),
    import(`${folder}/verovio.mjs`),
  ]);
  return { wasm, esm };
});

scope.addEventListener("message", ({ data }) => {
  if (!isEngraverJoin(data)) return;
  const { port, verovio } = data;
  folder = verovio;
  port.onmessage = ({ data: asked }) => {
    if (isRequest(asked)) void answer(asked.number, asked.task).then((each) => port.postMessage(each));
  };
});
