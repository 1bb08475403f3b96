/** Reaches the engraver in a browser: the worker at the other end of a port. */
import { EngravingError, type EngravingTask, type RunningEngraver } from "./notation/engrave";
import { isAnswer } from "./notation/engraving-messages";
import { keepingEngraver, MOST_KEPT, queuedEngraver } from "./notation/engraving-queue";
import type { Port } from "./protocol/joining";

/** An engraver that waits for the port to come, and ends it when it is told to stop. */
export function joinedEngraver(joined: Promise<Port>): RunningEngraver {
  let numbers = 0;

  async function work(task: EngravingTask): Promise<string> {
    const port = await joined;
    const number = numbers++;
    return new Promise((done, failed) => {
      port.onmessage = ({ data }) => {
        if (!isAnswer(data) || data.number !== number) return;
        if ("svg" in data) done(data.svg);
        else failed(new EngravingError(data.trouble));
      };
      port.postMessage({ number, task });
    });
  }

  return {
    ...keepingEngraver(queuedEngraver(work), MOST_KEPT),
    stop: async () => (await joined).close(),
  };
}
