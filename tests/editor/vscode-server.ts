import { spawn } from "node:child_process";
import { createInterface } from "node:readline";
import type { Edition } from "./editions";
import { Failure } from "./failure";
import { isReady, type Places, placesOf } from "./places";
import type { RunFolder } from "./run-folder";
import { runToEnd } from "./run-to-end";
import { signalGroup } from "./signal-group";

/** A running VS Code server. */
export interface VscodeServer {
  /** The port on the loopback address. */
  readonly port: number;
  /** Everything it has printed so far. */
  log(): string;
  /** Ends it and all it started. */
  stop(): Promise<void>;
}

/** How long a server may take until it listens. */
const startLimitMs = 60_000;

/** Flags of every server: loopback, no token, no questions, nothing sent anywhere. */
function flags(folder: RunFolder): string[] {
  return [
    "--host=127.0.0.1",
    "--without-connection-token",
    "--accept-server-license-terms",
    "--disable-workspace-trust",
    "--telemetry-level=off",
    `--server-data-dir=${folder.data}`,
  ];
}

/** The environment of a server: the caller's, but with a home of its own. */
function environment(folder: RunFolder): NodeJS.ProcessEnv {
  return { ...process.env, HOME: folder.home, XDG_CACHE_HOME: folder.home, XDG_CONFIG_HOME: folder.home };
}

/** The places of a provisioned edition; says what to do where it is not provisioned. */
function readyPlaces(edition: Edition): Places {
  const places = placesOf(edition);
  if (!isReady(places)) {
    throw new Failure(`VS Code ${edition.vscode} is not provisioned. Run "npm run provision" first.`);
  }
  return places;
}

/** Installs a packaged extension as a user would, before the server starts. */
export async function installVsix(edition: Edition, folder: RunFolder, vsix: string): Promise<void> {
  const places = readyPlaces(edition);
  const args = ["out/server-main.js", ...flags(folder), `--install-extension=${vsix}`];
  const said = await runToEnd(places.node, args, { cwd: places.vscode, env: environment(folder) });
  // An exit code of 0 alone does not say that anything was installed, so the words decide.
  if (!said.includes("was successfully installed")) throw new Failure(`Installing ${vsix} failed:\n${said}`);
}

/** Starts a server on a port that the system picks, and waits until it says that it listens. */
export async function startVscodeServer(edition: Edition, folder: RunFolder): Promise<VscodeServer> {
  const places = readyPlaces(edition);
  // A process group of its own, so that stopping also reaches extension hosts and language servers.
  const child = spawn(places.node, ["out/server-main.js", "--port=0", ...flags(folder)], {
    cwd: places.vscode,
    env: environment(folder),
    stdio: ["ignore", "pipe", "pipe"],
    detached: true,
  });
  let log = "";
  const stopNow = (): void => signalGroup(child, "SIGKILL");
  process.once("exit", stopNow);
  const port = await new Promise<number>((resolve, reject) => {
    const limit = setTimeout(() => {
      stopNow();
      reject(new Failure(`The server did not listen within ${startLimitMs / 1000} s:\n${log}`));
    }, startLimitMs);
    const read = (line: string): void => {
      log += `${line}\n`;
      const listening = /^Extension host agent listening on (\d+)/.exec(line);
      if (listening === null) return;
      clearTimeout(limit);
      resolve(Number(listening[1]));
    };
    createInterface(child.stdout).on("line", read);
    createInterface(child.stderr).on("line", read);
    child.once("error", reject);
    child.once("exit", (code) => {
      clearTimeout(limit);
      reject(new Failure(`The server ended with ${code} before it listened:\n${log}`));
    });
  });
  return {
    port,
    log: () => log,
    async stop() {
      process.off("exit", stopNow);
      if (child.exitCode === null && child.signalCode === null) {
        const gone = new Promise<void>((resolve) => child.once("exit", () => resolve()));
        signalGroup(child, "SIGTERM");
        const last = setTimeout(stopNow, 2000);
        await gone;
        clearTimeout(last);
      }
      // The file watcher and language servers outlive a server asked politely; whoever is left in the group goes now.
      stopNow();
    },
  };
}
