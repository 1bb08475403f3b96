import * as vscode from "vscode";
import { PRINT_PROGRESS_NOTIFICATION, type PrintProgressParams } from "../server/protocol/print-requests";
import { STATE_NOTIFICATION, type StateParams } from "../server/protocol/requests";
import type { Host, MadeClient } from "./host";
import { untilAnswered } from "./until-answered";

/** So many ends within the time below are taken for bad luck; one more, and a person is asked. */
const PATIENCE = 3;
const WITHIN_MS = 3 * 60_000;

/** How the server is, as a person wants to know it. */
export type ServerState = "starting" | "ready" | "stopped";

/** The client's own states that matter here: the protocol's library numbers them so. */
const RUNNING = 2;

/**
 * Keeps a server running: starts it, starts it anew when it ended by itself, and after it ended again and again
 * leaves it alone and says so, with a way to try once more.
 */
export class ServerKeeper implements vscode.Disposable {
  private readonly changed = new vscode.EventEmitter<ServerState>();
  /** Fires with each new state. */
  readonly onDidChangeState = this.changed.event;
  private readonly told = new vscode.EventEmitter<StateParams>();
  /** Fires with what the server says of itself. */
  readonly onDidTell = this.told.event;
  private readonly printing = new vscode.EventEmitter<PrintProgressParams>();
  /** Fires with how far the pages are that were asked for. */
  readonly onDidPrint = this.printing.event;
  private current: ServerState = "starting";
  private channel: vscode.LogOutputChannel | undefined;
  private made: MadeClient | undefined;
  private ends: number[] = [];
  private closing = false;
  private starting: Promise<void> | undefined;

  constructor(
    private readonly host: Host,
    private readonly own: { push(...disposables: vscode.Disposable[]): void },
  ) {}

  /** Where client and server write what a person might want to read when something went wrong. */
  get output(): vscode.LogOutputChannel {
    if (this.channel === undefined) {
      this.channel = vscode.window.createOutputChannel("Leadpipe", { log: true });
      this.own.push(this.channel);
    }
    return this.channel;
  }

  get state(): ServerState {
    return this.current;
  }

  /** Starts the server once; resolves when it has answered its first request, or was found not to. */
  start(): Promise<void> {
    this.starting ??= this.tryToStart();
    return this.starting;
  }

  /** Asks the server; null where it cannot answer now, or the asker left. The next event asks again. */
  async ask<T>(request: string, params: unknown, token?: vscode.CancellationToken): Promise<T | null> {
    if (this.made === undefined || this.current !== "ready") return null;
    try {
      const { client } = this.made;
      // A token that is not there must not be handed on: the library would take it for a second parameter.
      return await untilAnswered(() =>
        token === undefined
          ? client.sendRequest<T>(request, params)
          : client.sendRequest<T>(request, params, token),
      );
    } catch (thrown) {
      // The server is just ending, or the question was overtaken by one edit after the other.
      this.output.debug(`${request}: ${String(thrown)}`);
      return null;
    }
  }

  /** Ends the server, if there is one, and starts a fresh one, whatever happened before. */
  async restart(): Promise<void> {
    this.ends = [];
    this.become("starting");
    const { made } = this;
    try {
      await made?.client.stop();
    } catch (thrown) {
      this.output.warn(`The server did not stop politely: ${String(thrown)}`);
    }
    made?.endServer();
    this.starting = this.tryToStart();
    await this.starting;
  }

  /** Ends the server as a crash would. */
  endServer(): void {
    this.made?.endServer();
  }

  dispose(): void {
    this.closing = true;
    const { made } = this;
    void made?.client.stop().catch(() => made.endServer());
    this.changed.dispose();
    this.told.dispose();
    this.printing.dispose();
  }

  private async tryToStart(): Promise<void> {
    try {
      this.made ??= await this.makeClient();
      await this.made.client.start();
    } catch (thrown) {
      this.output.error(`The server did not start: ${String(thrown)}`);
      this.giveUp();
    }
  }

  private async makeClient(): Promise<MadeClient> {
    const made = await this.host.makeClient({ output: this.output, onEnd: () => this.mayStartAnew() });
    this.own.push(
      made.client.onDidChangeState(({ newState }) => {
        if (newState === RUNNING) this.become("ready");
      }),
      made.client.onNotification(STATE_NOTIFICATION, (told: StateParams) => this.told.fire(told)),
      made.client.onNotification(PRINT_PROGRESS_NOTIFICATION, (told: PrintProgressParams) =>
        this.printing.fire(told),
      ),
      ...made.around,
    );
    return made;
  }

  private mayStartAnew(): boolean {
    if (this.closing) return false;
    const now = Date.now();
    this.ends = [...this.ends.filter((each) => now - each < WITHIN_MS), now];
    if (this.ends.length <= PATIENCE) {
      this.become("starting");
      return true;
    }
    this.giveUp();
    return false;
  }

  private giveUp(): void {
    // A start that fails because the server ended is heard of twice, and told once.
    if (this.current === "stopped") return;
    this.become("stopped");
    const [restart, output] = [vscode.l10n.t("Restart"), vscode.l10n.t("Show Output")];
    void vscode.window
      .showWarningMessage(
        vscode.l10n.t(
          "Leadpipe has stopped checking: the part that checks did not start, or ended several times in a row. Your files are as you left them.",
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
