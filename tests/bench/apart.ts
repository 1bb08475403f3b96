import { type ChildProcess, fork } from "node:child_process";
import type { Timed } from "./timing";

/** A process of its own that does its work whenever it is told to, and answers how many milliseconds that took. */
export class Apart {
  private readonly child: ChildProcess;

  /**
   * @param script JavaScript, or TypeScript, which is read by a loader as it stands
   * @param inARow how often the work is done each time
   * @param engine what the engine is told
   */
  constructor(script: string, inARow: number, engine: readonly string[] = []) {
    const loader = script.endsWith(".ts") ? ["--import", "tsx"] : [];
    const execArgv = [...engine, ...loader];
    this.child = fork(script, [String(inARow)], { execArgv, env: { ...process.env, NODE_OPTIONS: "" } });
  }

  /** What one of a row takes. Fails where the process ends before it has answered. */
  readonly time: Timed = () =>
    new Promise((resolve, reject) => {
      const answered = (milliseconds: unknown): void => {
        this.child.off("exit", ended);
        resolve(Number(milliseconds));
      };
      const ended = (code: number | null): void => {
        this.child.off("message", answered);
        reject(new Error(`the process apart ended with ${code}`));
      };
      this.child.once("exit", ended);
      this.child.once("message", answered);
      this.child.send("once more");
    });

  /** Ends the process. */
  end(): void {
    this.child.kill();
  }
}
