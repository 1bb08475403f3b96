/** The thread that engraves, where there is Node. */
import { parentPort } from "node:worker_threads";
import { isRequest } from "./notation/engraving-messages";
import { engravingService } from "./notation/engraving-service";

const answer = engravingService(async () => {
  const [wasm, esm] = await Promise.all([import("verovio/wasm"), import("verovio/esm")]);
  return { wasm, esm };
});

parentPort?.on("message", (message: unknown) => {
  if (!isRequest(message)) return;
  void answer(message.number, message.task).then((each) => parentPort?.postMessage(each));
});
