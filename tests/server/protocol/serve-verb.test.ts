import { spawn } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { buildSync } from "esbuild";
import { afterAll, beforeAll, expect, test } from "vitest";
import {
  createProtocolConnection,
  ExitNotification,
  InitializeRequest,
  ShutdownRequest,
  StreamMessageReader,
  StreamMessageWriter,
} from "vscode-languageserver/node";

const ROOT = fileURLToPath(new URL("../../..", import.meta.url));
const dist = mkdtempSync(join(tmpdir(), "leadpipe-serve-"));

beforeAll(() => {
  buildSync({
    absWorkingDir: ROOT,
    entryPoints: { leadpipe: "server/launch.ts", server: "server/node.ts" },
    outdir: dist,
    outExtension: { ".js": ".cjs" },
    bundle: true,
    platform: "node",
    target: "node20",
    format: "cjs",
    logLevel: "warning",
  });
});
afterAll(() => rmSync(dist, { recursive: true, force: true }));

test.each([[[]], [["--stdio"]]])(
  "leadpipe serve %j is the server, and needs nothing of the command line",
  async (words) => {
    const child = spawn(process.execPath, [join(dist, "leadpipe.cjs"), "serve", ...words], { stdio: "pipe" });
    const ended = new Promise((resolve) => child.once("exit", resolve));
    const connection = createProtocolConnection(
      new StreamMessageReader(child.stdout),
      new StreamMessageWriter(child.stdin),
    );
    connection.listen();
    const { capabilities } = await connection.sendRequest(InitializeRequest.type, {
      processId: process.pid,
      rootUri: null,
      workspaceFolders: null,
      capabilities: {},
    });
    expect(capabilities.hoverProvider).toBe(true);
    await connection.sendRequest(ShutdownRequest.type);
    await connection.sendNotification(ExitNotification.type);
    expect(await ended).toBe(0);
    connection.dispose();
  },
);
