import { type ChildProcess, spawn } from "node:child_process";
import { once } from "node:events";
import {
  type ClientCapabilities,
  createProtocolConnection,
  DidChangeTextDocumentNotification,
  DidOpenTextDocumentNotification,
  ExitNotification,
  InitializedNotification,
  InitializeRequest,
  type Position,
  type ProtocolConnection,
  PublishDiagnosticsNotification,
  ShutdownRequest,
  StreamMessageReader,
  StreamMessageWriter,
} from "vscode-languageserver/node";
import { ENGINE_OPTIONS } from "../../server/protocol/engine-options";
import { REPORTING } from "./child";

/** An editor that does nothing but type and look at the clock. */
export class BenchEditor {
  readonly connection: ProtocolConnection;
  private readonly child: ChildProcess;
  private readonly versions = new Map<string, number>();
  private waiting: ((uri: string, version: number) => void) | undefined;

  constructor(server: string) {
    const child = spawn(process.execPath, [...ENGINE_OPTIONS, ...REPORTING, server, "--stdio"], {
      stdio: ["pipe", "pipe", "inherit", "pipe"],
      env: { ...process.env, NODE_OPTIONS: "" },
    });
    this.child = child;
    const { stdin, stdout } = child;
    if (stdin === null || stdout === null) throw new Error("the server has no streams to speak over");
    this.connection = createProtocolConnection(
      new StreamMessageReader(stdout),
      new StreamMessageWriter(stdin),
    );
    this.connection.onNotification(PublishDiagnosticsNotification.type, ({ uri, version }) => {
      if (version !== undefined) this.waiting?.(uri, version);
    });
    this.connection.listen();
  }

  async start(
    folder: string | undefined,
    capabilities: ClientCapabilities,
    initializationOptions?: object,
  ): Promise<void> {
    await this.connection.sendRequest(InitializeRequest.type, {
      processId: process.pid,
      rootUri: folder ?? null,
      workspaceFolders: folder === undefined ? null : [{ uri: folder, name: "bench" }],
      capabilities,
      ...(initializationOptions === undefined ? {} : { initializationOptions }),
    });
    await this.connection.sendNotification(InitializedNotification.type, {});
  }

  async open(uri: string, text: string): Promise<void> {
    this.versions.set(uri, 1);
    await this.connection.sendNotification(DidOpenTextDocumentNotification.type, {
      textDocument: { uri, languageId: "practice", version: 1, text },
    });
  }

  /** Puts a text in place of so many letters of a line. */
  edit(uri: string, { line, character }: Position, length: number, text: string): Promise<void> {
    const version = (this.versions.get(uri) ?? 0) + 1;
    this.versions.set(uri, version);
    const end = { line, character: character + length };
    return this.connection.sendNotification(DidChangeTextDocumentNotification.type, {
      textDocument: { uri, version },
      contentChanges: [{ range: { start: { line, character }, end }, text }],
    });
  }

  /** Resolves when the findings of the text as it will stand then have come. */
  published(uri: string): Promise<void> {
    return new Promise((resolve) => {
      this.waiting = (of, version) => {
        if (of === uri && version === this.versions.get(uri)) resolve();
      };
    });
  }

  /** Ends the server; the most resident memory it held, in megabytes. */
  async end(): Promise<number> {
    let report = "";
    this.child.stdio[3]?.on("data", (chunk: Buffer) => {
      report += chunk.toString();
    });
    const ended = once(this.child, "close");
    await this.connection.sendRequest(ShutdownRequest.type);
    await this.connection.sendNotification(ExitNotification.type);
    await ended;
    this.connection.dispose();
    return Number(report) / 1024;
  }
}
