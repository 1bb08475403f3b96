import { type ChildProcess, fork } from "node:child_process";
import { ENGINE_OPTIONS } from "../server/protocol/engine-options";

/** Starts servers as processes of their own, one of them ahead of its time. */
export class ServerProcesses {
  private ahead: ChildProcess | undefined;

  constructor(private readonly script: string) {}

  /** Starts a server that nobody speaks to yet, so that it is up by the time the client is. */
  startAhead(): void {
    this.ahead ??= this.start();
  }

  /** A server that nobody speaks to yet. */
  take(): ChildProcess {
    const { ahead } = this;
    this.ahead = undefined;
    return ahead?.exitCode === null && ahead.signalCode === null ? ahead : this.start();
  }

  private start(): ChildProcess {
    // Flags of the host's own process, such as those of a debugger, are not the server's.
    return fork(this.script, ["--node-ipc"], { execArgv: [...ENGINE_OPTIONS], silent: true });
  }
}
