/** Starts the thread that engraves, when the first picture is asked for. */
import { Worker } from "node:worker_threads";
import { EngravingError, type EngravingTask, type RunningEngraver } from "./notation/engrave";
import { isAnswer } from "./notation/engraving-messages";
import { keepingEngraver, MOST_KEPT, queuedEngraver } from "./notation/engraving-queue";

/** Tasks the thread holds: the one it is at, and the next, so that it need not wait for it. */
const AT_ONCE = 2;

interface Asked {
  readonly task: EngravingTask;
  readonly done: (svg: string) => void;
  readonly failed: (why: EngravingError) => void;
}

interface Thread {
  readonly worker: Worker;
  /** What it was asked and has not answered yet, by number, in order. */
  readonly asked: Map<number, Asked>;
}

/**
 * An engraver in a thread of its own, which runs the bundled `engraver.ts` at this path. Stopping ends the thread,
 * if it was started; the next task starts another.
 */
export function launchEngraver(script: string): RunningEngraver {
  let thread: Thread | undefined;
  let numbers = 0;

  function started(): Thread {
    const worker = new Worker(script);
    const asked = new Map<number, Asked>();
    worker.on("message", (message: unknown) => {
      if (!isAnswer(message)) return;
      const one = asked.get(message.number);
      asked.delete(message.number);
      if ("svg" in message) one?.done(message.svg);
      else one?.failed(new EngravingError(message.trouble));
    });
    const lost = (): void => {
      if (thread?.worker === worker) thread = undefined;
      // A thread that died takes nothing along but the picture it was most likely at: another does those behind it.
      const [first, ...others] = asked.values();
      asked.clear();
      first?.failed(new EngravingError("The engraver stopped on this music."));
      for (const each of others) ask(each);
    };
    worker.on("error", lost);
    worker.on("exit", lost);
    return { worker, asked };
  }

  function ask(one: Asked): void {
    thread ??= started();
    const number = numbers++;
    thread.asked.set(number, one);
    thread.worker.postMessage({ number, task: one.task });
  }

  const work = (task: EngravingTask): Promise<string> =>
    new Promise((done, failed) => ask({ task, done, failed }));

  const queued = queuedEngraver(work, AT_ONCE);
  return {
    ...keepingEngraver(queued, MOST_KEPT),
    stop: async () => {
      const running = thread;
      thread = undefined;
      const stopped = new EngravingError("The engraver was stopped.");
      queued.empty(stopped);
      if (running === undefined) return;
      for (const { failed } of running.asked.values()) failed(stopped);
      running.asked.clear();
      await running.worker.terminate();
    },
  };
}
