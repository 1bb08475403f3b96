import { createReadStream } from "node:fs";
import { stat } from "node:fs/promises";
import http, { type IncomingMessage, type ServerResponse } from "node:http";
import net, { type AddressInfo } from "node:net";
import path from "node:path";

/**
 * A small server in front of the VS Code server, so that one origin gives the browser three things: the workbench,
 * the settings we want written into its page, and folders of ours. The page's policy forbids every other origin,
 * and the VS Code server itself serves nothing but its own files.
 */
export interface Front {
  readonly port: number;
  readonly authority: string;
  close(): Promise<void>;
}

/** What the front adds to the server behind it. */
export interface FrontOptions {
  /** The port of the VS Code server. */
  readonly behind: number;
  /** Folders served under `/<name>/…`. */
  readonly folders: Readonly<Record<string, string>>;
  /** What the workbench finds in its page beside what the server wrote there. */
  settings(authority: string): Readonly<Record<string, unknown>>;
}

/** Content types of what an extension is made of; browsers refuse scripts without theirs. */
const types: Readonly<Record<string, string>> = {
  ".css": "text/css",
  ".html": "text/html",
  ".js": "text/javascript",
  ".mjs": "text/javascript",
  ".json": "application/json",
  ".svg": "image/svg+xml",
  ".wasm": "application/wasm",
};

/** Starts a front on a port that the system picks. */
export async function startFront(options: FrontOptions): Promise<Front> {
  const sockets = new Set<net.Socket>();
  const server = http.createServer((request, response) => {
    const own = ownFile(request.url ?? "/", options.folders);
    if (own !== undefined) void sendFile(own, response);
    else pass(request, response);
  });
  const pass = (request: IncomingMessage, response: ServerResponse): void => {
    const isPage = new URL(request.url ?? "/", "http://page").pathname === "/";
    const headers = { ...request.headers };
    // The page is changed on its way, so it must come as plain text.
    if (isPage) delete headers["accept-encoding"];
    const target = {
      host: "127.0.0.1",
      port: options.behind,
      method: request.method,
      path: request.url,
      headers,
    };
    const onward = http.request(target, (answer) => {
      if (isPage && (answer.headers["content-type"] ?? "").startsWith("text/html")) {
        void sendPage(answer, response, options.settings(authority));
      } else {
        response.writeHead(answer.statusCode ?? 502, answer.headers);
        answer.pipe(response);
      }
    });
    onward.on("error", () => response.destroy());
    request.pipe(onward);
  };
  // Everything live (extension host, file system) goes over web sockets, which are handed on byte by byte.
  server.on("upgrade", (request: IncomingMessage, socket: net.Socket, head: Buffer) => {
    const onward = net.connect(options.behind, "127.0.0.1", () => {
      const lines = [`${request.method} ${request.url} HTTP/1.1`];
      for (let i = 0; i < request.rawHeaders.length; i += 2) {
        lines.push(`${request.rawHeaders[i]}: ${request.rawHeaders[i + 1]}`);
      }
      onward.write(`${lines.join("\r\n")}\r\n\r\n`);
      onward.write(head);
      onward.pipe(socket).pipe(onward);
    });
    for (const [one, other] of [
      [socket, onward],
      [onward, socket],
    ] as const) {
      sockets.add(one);
      one.on("error", () => other.destroy());
      one.on("close", () => {
        sockets.delete(one);
        other.destroy();
      });
    }
  });
  await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
  const { port } = server.address() as AddressInfo;
  const authority = `127.0.0.1:${port}`;
  return {
    port,
    authority,
    async close() {
      for (const socket of sockets) socket.destroy();
      server.closeAllConnections();
      await new Promise<void>((resolve) => server.close(() => resolve()));
    },
  };
}

/** The file of ours that an address means, or undefined where the address is the editor's. */
function ownFile(url: string, folders: Readonly<Record<string, string>>): string | undefined {
  const [, name = "", ...rest] = decodeURIComponent(new URL(url, "http://page").pathname).split("/");
  const folder = Object.hasOwn(folders, name) ? folders[name] : undefined;
  return folder === undefined ? undefined : path.join(folder, path.posix.normalize(`/${rest.join("/")}`));
}

/** Sends a file, or says that there is none. */
async function sendFile(file: string, response: ServerResponse): Promise<void> {
  const found = await stat(file).catch(() => undefined);
  if (found === undefined || !found.isFile()) {
    response.writeHead(404).end();
    return;
  }
  response.writeHead(200, { "content-type": types[path.extname(file)] ?? "application/octet-stream" });
  createReadStream(file).pipe(response);
}

/** Sends the workbench's page with settings added to those the server wrote into it. */
async function sendPage(
  answer: IncomingMessage,
  response: ServerResponse,
  added: Readonly<Record<string, unknown>>,
): Promise<void> {
  const chunks: Buffer[] = [];
  for await (const chunk of answer) chunks.push(chunk as Buffer);
  const page = Buffer.concat(chunks)
    .toString("utf8")
    .replace(
      /(id="vscode-workbench-web-configuration" data-settings=")([^"]*)"/,
      (_all, head: string, json: string) => {
        const settings = { ...(JSON.parse(unescapeAttribute(json)) as Record<string, unknown>), ...added };
        return `${head}${escapeAttribute(JSON.stringify(settings))}"`;
      },
    );
  const headers = { ...answer.headers };
  delete headers["content-length"];
  delete headers["transfer-encoding"];
  response.writeHead(answer.statusCode ?? 200, headers).end(page);
}

/** The text that an attribute's value stands for. */
function unescapeAttribute(value: string): string {
  return value
    .replaceAll("&quot;", '"')
    .replaceAll("&lt;", "<")
    .replaceAll("&gt;", ">")
    .replaceAll("&amp;", "&");
}

/** A text as an attribute's value. */
function escapeAttribute(text: string): string {
  return text.replaceAll("&", "&amp;").replaceAll('"', "&quot;").replaceAll("<", "&lt;");
}
