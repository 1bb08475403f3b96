/** Starts the thread that sets pages, when the first page is asked for. */
import { Worker } from "node:worker_threads";
import type { PressFiles } from "./output/packet-files";
import {
  isPressAnswer,
  PressError,
  type Pressed,
  type PressRequest,
  type RunningPress,
} from "./output/press";

/**
 * A press in a thread of its own, which runs the bundled `press.ts` at this path. Stopping ends the thread, if it
 * was started; so does a signal while pages are being set, for they cannot be left half set otherwise.
 */
export function launchPress(script: string): RunningPress {
  let thread: Worker | undefined;
  let numbers = 0;

  async function end(): Promise<void> {
    const running = thread;
    thread = undefined;
    await running?.terminate();
  }

  async function print(files: PressFiles, signal: AbortSignal | undefined): Promise<Pressed> {
    signal?.throwIfAborted();
    thread ??= new Worker(script);
    const worker = thread;
    const number = numbers++;
    return await new Promise<Pressed>((done, failed) => {
      const settle = (): void => {
        worker.off("message", listen);
        worker.off("error", fail);
        worker.off("exit", fail);
        signal?.removeEventListener("abort", leave);
      };
      const listen = (message: unknown): void => {
        if (!isPressAnswer(message) || message.number !== number) return;
        if ("broken" in message) {
          fail();
          void worker.terminate();
          return;
        }
        settle();
        if ("pressed" in message) done(message.pressed);
        else failed(new PressError(message.trouble, { cause: message.detail }));
      };
      const fail = (): void => {
        settle();
        if (thread === worker) thread = undefined;
        failed(new Breakdown("The pages could not be set: there may be too many of them for one file."));
      };
      const leave = (): void => {
        settle();
        void end();
        failed(signal?.reason);
      };
      worker.on("message", listen);
      worker.on("error", fail);
      worker.on("exit", fail);
      signal?.addEventListener("abort", leave, { once: true });
      const request: PressRequest = { number, files: [...files] };
      worker.postMessage(request);
    });
  }

  return {
    stop: end,
    print: async (files, signal) => {
      const wasAtWork = thread !== undefined;
      try {
        return await print(files, signal);
      } catch (error) {
        // The engine gives nothing back of the room that earlier pages took: a new thread may have enough.
        if (!wasAtWork || !(error instanceof Breakdown)) throw error;
        return await print(files, signal);
      }
    },
  };
}

/** The thread died, or its engine did. */
class Breakdown extends PressError {}
