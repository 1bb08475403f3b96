import { type ChildProcess, fork } from "node:child_process";
import type { Timed } from "./timing";

/** A process of its own that does its work whenever it is told to, and answers how many milliseconds that took. */
export class Apart {
  private readonly child: ChildProcess;

  /** @param script JavaScript, or TypeScript, which is read by a loader as it stands */
  constructor(script: string) {
    const execArgv = script.endsWith(".ts") ? ["--import", "tsx"] : [];
    this.child = fork(script, { execArgv, env: { ...process.env, NODE_OPTIONS: "" } });
  }

  /** Has the work done once. Fails where the process ends before it has answered. */
  readonly time: Timed = () =>
    new Promise((resolve, reject) => {
      const ended = (code: number | null): void => reject(new Error(`the process apart ended with ${code}`));
      this.child.once("exit", ended);
      this.child.once("message", (milliseconds) => {
        this.child.off("exit", ended);
        resolve(Number(milliseconds));
      });
      this.child.send("once more");
    });

  end(): void {
    this.child.kill();
  }
}
