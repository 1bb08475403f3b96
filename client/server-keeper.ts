import * as vscode from "vscode";
import {
  type BaseLanguageClient,
  CloseAction,
  type CloseHandlerResult,
  ErrorAction,
  type LanguageClientOptions,
} from "vscode-languageclient";
import type { Host, RunningServer } from "./host";

/** So many ends within the time below are taken for bad luck; one more, and a person is asked. */
const PATIENCE = 3;
const WITHIN_MS = 3 * 60_000;

/** How the server is, as a person wants to know it. */
export type ServerState = "starting" | "ready" | "stopped";

/**
 * Keeps a server running: starts it, starts it anew when it ended by itself, and after it ended again and again
 * leaves it alone and says so, with a way to try once more.
 */
export class ServerKeeper implements vscode.Disposable {
  readonly client: BaseLanguageClient;
  private readonly changed = new vscode.EventEmitter<ServerState>();
  /** Fires with each new state. */
  readonly onDidChangeState = this.changed.event;
  private current: ServerState = "starting";
  private server: RunningServer | undefined;
  private ends: number[] = [];
  private closing = false;
  private starting = Promise.resolve();

  constructor(
    host: Host,
    options: LanguageClientOptions,
    private readonly output: vscode.LogOutputChannel,
  ) {
    this.client = host.clientFor(
      {
        ...options,
        errorHandler: {
          // A message that could not be read or written is logged by the client; the next one may well be.
          error: () => ({ action: ErrorAction.Continue, handled: true }),
          closed: () => this.afterEnd(),
        },
      },
      () => {
        this.server = host.startServer((line) => output.warn(line));
        return Promise.resolve(this.server.transports);
      },
    );
    this.client.onDidChangeState(({ newState }) => {
      // 1 stopped, 2 running, 3 starting: the client's own states, more of which may come.
      if (newState === 2) this.become("ready");
      else if (newState === 3) this.become("starting");
    });
  }

  get state(): ServerState {
    return this.current;
  }

  /** Resolves once the server has answered its first request, or was found not to. */
  get started(): Promise<void> {
    return this.starting;
  }

  /** Starts the server; resolves once it has answered its first request, or was found not to. */
  start(): Promise<void> {
    this.starting = this.tryToStart();
    return this.starting;
  }

  private async tryToStart(): Promise<void> {
    try {
      await this.client.start();
    } catch (thrown) {
      this.output.error(`The server did not start: ${String(thrown)}`);
      this.giveUp();
    }
  }

  /** Ends the server, if there is one, and starts a fresh one, whatever happened before. */
  async restart(): Promise<void> {
    this.ends = [];
    this.become("starting");
    try {
      await this.client.stop();
    } catch (thrown) {
      this.output.warn(`The server did not stop politely: ${String(thrown)}`);
    }
    this.server?.end();
    await this.start();
  }

  /** Ends the server as a crash would. */
  endServer(): void {
    this.server?.end();
  }

  dispose(): void {
    this.closing = true;
    void this.client.stop().catch(() => this.server?.end());
    this.changed.dispose();
  }

  private afterEnd(): CloseHandlerResult {
    if (this.closing) return { action: CloseAction.DoNotRestart, handled: true };
    const now = Date.now();
    this.ends = [...this.ends.filter((each) => now - each < WITHIN_MS), now];
    if (this.ends.length <= PATIENCE) {
      this.become("starting");
      return {
        action: CloseAction.Restart,
        handled: true,
        message: "The server ended by itself and is started anew.",
      };
    }
    this.giveUp();
    return {
      action: CloseAction.DoNotRestart,
      handled: true,
      message: "The server ended too often and is left alone.",
    };
  }

  private giveUp(): void {
    this.become("stopped");
    const [restart, output] = [vscode.l10n.t("Restart"), vscode.l10n.t("Show Output")];
    void vscode.window
      .showWarningMessage(
        vscode.l10n.t(
          "Leadpipe has stopped checking: its server ended several times in a row. Your files are as you left them.",
        ),
        restart,
        output,
      )
      .then((chosen) => {
        if (chosen === restart) void this.restart();
        else if (chosen === output) this.output.show();
      });
  }

  private become(state: ServerState): void {
    if (this.current === state) return;
    this.current = state;
    this.changed.fire(state);
  }
}
