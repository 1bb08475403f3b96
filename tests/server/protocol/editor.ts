import { type ChildProcess, spawn } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { PassThrough } from "node:stream";
import { fileURLToPath, pathToFileURL } from "node:url";
import { buildSync } from "esbuild";
import { afterAll } from "vitest";
import {
  type ClientCapabilities,
  createConnection,
  createProtocolConnection,
  type Diagnostic,
  DidChangeTextDocumentNotification,
  DidCloseTextDocumentNotification,
  DidOpenTextDocumentNotification,
  ExitNotification,
  InitializedNotification,
  InitializeRequest,
  type InitializeResult,
  LogMessageNotification,
  type Position,
  type ProtocolConnection,
  PublishDiagnosticsNotification,
  type PublishDiagnosticsParams,
  ShutdownRequest,
  StreamMessageReader,
  StreamMessageWriter,
} from "vscode-languageserver/node";
import { type Host, serve } from "../../../server/serve";
import type { Features } from "../../../server/serve-features";

const ROOT = fileURLToPath(new URL("../../..", import.meta.url));

let program: string | undefined;

afterAll(() => {
  if (program !== undefined) rmSync(dirname(program), { recursive: true, force: true });
  program = undefined;
});

/** The server as it is shipped, bundled afresh once for each test file. */
export function bundledServer(): string {
  if (program === undefined) {
    program = join(mkdtempSync(join(tmpdir(), "leadpipe-server-")), "server.cjs");
    buildSync({
      absWorkingDir: ROOT,
      entryPoints: ["server/node.ts"],
      bundle: true,
      platform: "node",
      target: "node20",
      format: "cjs",
      outfile: program,
      logLevel: "warning",
    });
  }
  return program;
}

/** An editor at the other end of a server, as bare as it can be. */
export class Editor {
  /** The last findings that were sent of each address. */
  readonly sent = new Map<string, PublishDiagnosticsParams>();
  readonly logged: string[] = [];
  private waiting: (() => void)[] = [];
  private readonly texts = new Map<string, { text: string; version: number }>();

  private constructor(
    readonly connection: ProtocolConnection,
    /** The server's process, where it has one. */
    readonly child: ChildProcess | undefined,
  ) {
    connection.onNotification(PublishDiagnosticsNotification.type, (params) => {
      this.sent.set(params.uri, params);
      this.wake();
    });
    connection.onNotification(LogMessageNotification.type, ({ message }) => {
      this.logged.push(message);
      this.wake();
    });
    connection.listen();
  }

  /** Beside a process of its own, over its standard streams. */
  static beside(args: readonly string[] = ["--stdio"]): Editor {
    const child = spawn(process.execPath, [bundledServer(), ...args], { stdio: ["pipe", "pipe", "pipe"] });
    const connection = createProtocolConnection(
      new StreamMessageReader(child.stdout),
      new StreamMessageWriter(child.stdin),
    );
    return new Editor(connection, child);
  }

  /** Beside a server in this process, over a pair of streams, with whatever it is to be asked for. */
  static inMemory(host: Host, features?: Features): Editor {
    const there = new PassThrough();
    const back = new PassThrough();
    serve(createConnection(new StreamMessageReader(there), new StreamMessageWriter(back)), host, features);
    return new Editor(
      createProtocolConnection(new StreamMessageReader(back), new StreamMessageWriter(there)),
      undefined,
    );
  }

  async initialize(
    folders: readonly string[],
    capabilities: ClientCapabilities = {},
    initializationOptions?: object,
  ): Promise<InitializeResult> {
    const result = await this.connection.sendRequest(InitializeRequest.type, {
      processId: process.pid,
      rootUri: folders[0] ?? null,
      workspaceFolders: folders.map((uri) => ({ uri, name: uri })),
      capabilities,
      initializationOptions,
    });
    await this.connection.sendNotification(InitializedNotification.type, {});
    return result;
  }

  open(uri: string, text: string): Promise<void> {
    this.texts.set(uri, { text, version: 1 });
    return this.connection.sendNotification(DidOpenTextDocumentNotification.type, {
      textDocument: { uri, languageId: "practice", version: 1, text },
    });
  }

  /** Types in place of the first occurrence of a text, and tells of the one change. */
  replace(uri: string, old: string, fresh: string): Promise<void> {
    const document = this.texts.get(uri);
    const at = document?.text.indexOf(old) ?? -1;
    if (document === undefined || at < 0) throw new Error(`${uri} does not hold “${old}”`);
    const range = { start: positionIn(document.text, at), end: positionIn(document.text, at + old.length) };
    document.text = document.text.slice(0, at) + fresh + document.text.slice(at + old.length);
    document.version++;
    return this.connection.sendNotification(DidChangeTextDocumentNotification.type, {
      textDocument: { uri, version: document.version },
      contentChanges: [{ range, text: fresh }],
    });
  }

  close(uri: string): Promise<void> {
    this.texts.delete(uri);
    return this.connection.sendNotification(DidCloseTextDocumentNotification.type, { textDocument: { uri } });
  }

  textOf(uri: string): string {
    return this.texts.get(uri)?.text ?? "";
  }

  /** Where a text stands first in an open document, at its start or so many letters in. */
  positionOf(uri: string, text: string, within = 0): Position {
    const at = this.textOf(uri).indexOf(text);
    if (at < 0) throw new Error(`${uri} does not hold “${text}”`);
    return positionIn(this.textOf(uri), at + within);
  }

  /** The findings sent of an address, once they are such as is waited for. */
  async findings(
    uri: string,
    such: (diagnostics: readonly Diagnostic[]) => boolean,
  ): Promise<readonly Diagnostic[]> {
    for (;;) {
      const last = this.sent.get(uri);
      if (last !== undefined && such(last.diagnostics)) return last.diagnostics;
      await this.somethingNew();
    }
  }

  /** A line of the log, once there is one such as is waited for. */
  async log(such: RegExp): Promise<string> {
    for (;;) {
      const line = this.logged.find((each) => such.test(each));
      if (line !== undefined) return line;
      await this.somethingNew();
    }
  }

  /** Leaves as the protocol asks; the number the server's process ends with. */
  async leave(): Promise<number | null> {
    const ended = this.ended();
    await this.connection.sendRequest(ShutdownRequest.type);
    await this.connection.sendNotification(ExitNotification.type);
    const code = await ended;
    this.connection.dispose();
    return code;
  }

  /** The number the server's process ends with, once it does. */
  ended(): Promise<number | null> {
    const { child } = this;
    if (child === undefined) return Promise.resolve(null);
    if (child.exitCode !== null) return Promise.resolve(child.exitCode);
    return new Promise((resolve) => child.once("exit", (code) => resolve(code)));
  }

  private somethingNew(): Promise<void> {
    return new Promise((resolve) => this.waiting.push(resolve));
  }

  private wake(): void {
    for (const each of this.waiting.splice(0)) each();
  }
}

export function uriOf(path: string): string {
  return pathToFileURL(path).href;
}

function positionIn(text: string, offset: number): Position {
  const before = text.slice(0, offset);
  const line = before.split("\n").length - 1;
  return { line, character: offset - (before.lastIndexOf("\n") + 1) };
}
