/** One engraving after the other, and none for which nobody waits any longer. */
import type { Engraver, EngravingTask } from "./engrave";

/** Pictures that engravers keep: ten to thirty kilobytes each. */
export const MOST_KEPT = 600;

interface Waiting {
  readonly task: EngravingTask;
  readonly signal: AbortSignal | undefined;
  readonly done: (svg: string) => void;
  readonly failed: (why: unknown) => void;
}

/** An engraver whose tasks wait in a queue. */
export interface QueuedEngraver extends Engraver {
  /** Whatever waits and was not handed over is not begun, and fails for this reason. */
  empty(why: Error): void;
}

/**
 * An engraver over something that does one task at a time; it is handed so many at once that it need not wait for
 * the way of the next. A task whose signal comes before it is handed over is never begun; after that, its result is
 * dropped.
 */
export function queuedEngraver(work: (task: EngravingTask) => Promise<string>, atOnce = 1): QueuedEngraver {
  const queue: Waiting[] = [];
  let busy = 0;

  function next(): void {
    while (busy < atOnce) {
      const one = queue.shift();
      if (one === undefined) return;
      if (one.signal?.aborted !== true) void begin(one);
    }
  }

  async function begin({ task, done, failed }: Waiting): Promise<void> {
    busy++;
    try {
      done(await work(task));
    } catch (error) {
      failed(error);
    }
    busy--;
    next();
  }

  return {
    empty: (why) => {
      for (const { failed } of queue.splice(0)) failed(why);
    },
    engrave: (task, signal) =>
      new Promise((done, failed) => {
        signal?.throwIfAborted();
        signal?.addEventListener("abort", () => failed(signal.reason), { once: true });
        queue.push({ task, signal, done, failed });
        next();
      }),
  };
}

/** Keeps the last pictures by the content of their tasks; those being made are made once for all who wait. */
export function keepingEngraver(engraver: Engraver, most: number): Engraver {
  const kept = new Map<string, string>();
  const making = new Map<string, Promise<string>>();
  return {
    engrave: async (task, signal) => {
      signal?.throwIfAborted();
      const name = `${task.width} ${task.broken} ${task.density ?? ""} ${task.title}\n${task.musicXml}`;
      const found = kept.get(name);
      if (found !== undefined) {
        // Used last, dropped last.
        kept.delete(name);
        kept.set(name, found);
        return found;
      }
      // Whoever came first may leave; then the picture is made for the next, who asks anew.
      const shared = signal === undefined ? making.get(name) : undefined;
      if (shared !== undefined) return shared;
      const made = engraver.engrave(task, signal);
      if (signal === undefined) making.set(name, made);
      try {
        const svg = await made;
        kept.set(name, svg);
        for (const oldest of kept.keys()) {
          if (kept.size <= most) break;
          kept.delete(oldest);
        }
        return svg;
      } finally {
        if (making.get(name) === made) making.delete(name);
      }
    },
  };
}
