/**
 * The thread that engraves. It loads verovio with the first task and answers one after the other; whatever
 * goes wrong is an answer too.
 */
import { parentPort } from "node:worker_threads";
import { EngravingError, type EngravingTask, engraveWith, type Toolkit } from "./notation/engrave";
import { type EngravingAnswer, isRequest } from "./notation/engraving-messages";

let toolkit: Promise<Toolkit> | undefined;

async function load(): Promise<Toolkit> {
  const [{ default: createModule }, { enableLog, LOG_OFF, VerovioToolkit }] = await Promise.all([
    import("verovio/wasm"),
    import("verovio/esm"),
  ]).catch((error: unknown) => {
    throw new EngravingError(
      "The engraver (the package “verovio”) is not installed beside Leadpipe, or cannot be loaded.",
      { cause: error },
    );
  });
  const silent = (): void => undefined;
  const module = await createModule({ print: silent, printErr: silent });
  enableLog(LOG_OFF, module);
  return new VerovioToolkit(module);
}

async function answer(number: number, task: EngravingTask): Promise<EngravingAnswer> {
  try {
    toolkit ??= load();
    return { number, svg: engraveWith(await toolkit, task) };
  } catch (error) {
    // After a fault the engraver's memory cannot be trusted; the next task starts a new one.
    toolkit = undefined;
    const trouble = error instanceof EngravingError ? error.message : "The engraver stopped on this music.";
    return { number, trouble };
  }
}

parentPort?.on("message", (message: unknown) => {
  if (!isRequest(message)) return;
  void answer(message.number, message.task).then((each) => parentPort?.postMessage(each));
});
