/** Starts the thread that engraves, when the first picture is asked for. */
import { Worker } from "node:worker_threads";
import { EngravingError, type EngravingTask, type RunningEngraver } from "./notation/engrave";
import { isAnswer } from "./notation/engraving-messages";
import { keepingEngraver, MOST_KEPT, queuedEngraver } from "./notation/engraving-queue";

/**
 * An engraver in a thread of its own, which runs the bundled `engraver.ts` at this path. Stopping ends the thread,
 * if it was started; the next task starts another.
 */
export function launchEngraver(script: string): RunningEngraver {
  let thread: Worker | undefined;
  let numbers = 0;

  function work(task: EngravingTask): Promise<string> {
    thread ??= new Worker(script);
    const worker = thread;
    const number = numbers++;
    return new Promise((done, failed) => {
      const listen = (message: unknown): void => {
        if (!isAnswer(message) || message.number !== number) return;
        settle();
        if ("svg" in message) done(message.svg);
        else failed(new EngravingError(message.trouble));
      };
      const fail = (): void => {
        settle();
        // A thread that died takes nothing along but this picture: the next task starts another.
        if (thread === worker) thread = undefined;
        failed(new EngravingError("The engraver stopped on this music."));
      };
      const settle = (): void => {
        worker.off("message", listen);
        worker.off("error", fail);
        worker.off("exit", fail);
      };
      worker.on("message", listen);
      worker.on("error", fail);
      worker.on("exit", fail);
      worker.postMessage({ number, task });
    });
  }

  return {
    ...keepingEngraver(queuedEngraver(work), MOST_KEPT),
    stop: async () => {
      const running = thread;
      thread = undefined;
      await running?.terminate();
    },
  };
}
