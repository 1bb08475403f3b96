import { spawn } from "node:child_process";
import { cp } from "node:fs/promises";
import path from "node:path";
import { Failure } from "../failure";
import { findProgram } from "../find-program";
import { ResultReader, type Results } from "../outcome";
import { programs } from "../programs";
import { makeRunFolder } from "../run-folder";
import { signalGroup } from "../signal-group";

/** What Neovim is given to work with. */
export interface NeovimOptions {
  /** The script of the server that it starts and speaks to over its standard streams. */
  readonly server: string;
  /** A folder copied as the one it works in. */
  readonly workspace: string;
  /** The file in that folder that it opens. */
  readonly file: string;
}

/** How long Neovim may take for everything. */
const limitMs = 90_000;

/**
 * Runs the checks of `driver.lua` in Debian's Neovim and hands on what they print. A Neovim that ends without its
 * closing line, or with another exit code than that line promises, counts as failed.
 */
export async function runNeovim(options: NeovimOptions, print: (line: string) => void): Promise<Results> {
  const neovim = findProgram(programs.neovim);
  if (neovim === undefined) throw new Failure('Neovim is missing. Run "npm run provision" first.');
  const run = await makeRunFolder();
  try {
    await cp(options.workspace, run.workspace, { recursive: true });
    const check = {
      command: [process.execPath, options.server, "--stdio"],
      root: run.workspace,
      file: path.join(run.workspace, options.file),
    };
    // --clean: nobody's settings; the state folders are the run's own, as Neovim writes a log into them.
    const args = ["--clean", "--headless", "-n", "-S", path.join(import.meta.dirname, "driver.lua")];
    const env = {
      ...process.env,
      CHECK: JSON.stringify(check),
      HOME: run.home,
      XDG_CACHE_HOME: run.home,
      XDG_DATA_HOME: run.home,
      XDG_STATE_HOME: run.home,
      XDG_CONFIG_HOME: run.home,
    };
    // A process group of its own, so that stopping also reaches the language server.
    const child = spawn(neovim, args, { env, stdio: ["ignore", "pipe", "pipe"], detached: true });
    const stopNow = (): void => signalGroup(child, "SIGKILL");
    process.once("exit", stopNow);
    const limit = setTimeout(stopNow, limitMs);
    let said = "";
    for (const stream of [child.stdout, child.stderr]) {
      stream.on("data", (chunk: Buffer) => {
        said += chunk.toString("utf8");
      });
    }
    const code = await new Promise<number | string>((resolve, reject) => {
      child.once("error", reject);
      child.once("close", (exit, signal) => resolve(exit ?? signal ?? "nothing"));
    });
    clearTimeout(limit);
    process.off("exit", stopNow);
    const reader = new ResultReader();
    for (const line of said.trimEnd().split("\n")) if (!reader.read(line) || !/^\d/.test(line)) print(line);
    return reader.results(code);
  } finally {
    await run.remove();
  }
}
