import { spawn } from "node:child_process";
import { Failure } from "./failure";
import { signalGroup } from "./signal-group";
import { wordsOf } from "./words-of";

/** What a child process needs besides its words. */
export interface ChildOptions {
  readonly cwd?: string;
  readonly env?: NodeJS.ProcessEnv;
}

/** How much of a failed command's output is worth showing. */
const tailLines = 15;

/**
 * Runs a command to its end and returns its output.
 * Fails with the last lines of what it printed, because that is where commands say why.
 */
export async function runToEnd(
  command: string,
  args: readonly string[],
  options: ChildOptions = {},
): Promise<string> {
  const child = spawn(command, args, {
    cwd: options.cwd,
    env: options.env,
    stdio: ["ignore", "pipe", "pipe"],
    // A group of its own, so that an interrupted build takes its compilers along.
    detached: true,
  });
  const stopNow = (): void => signalGroup(child, "SIGKILL");
  process.once("exit", stopNow);
  let output = "";
  const collect = (chunk: Buffer): void => {
    output += chunk.toString("utf8");
  };
  child.stdout.on("data", collect);
  child.stderr.on("data", collect);
  const code = await new Promise<number | string>((resolve, reject) => {
    child.once("error", (error) => reject(new Failure(`Cannot start ${command}: ${wordsOf(error)}`)));
    child.once("close", (exit, signal) => resolve(exit ?? signal ?? "nothing"));
  });
  process.off("exit", stopNow);
  if (code !== 0) {
    const tail = output.trimEnd().split("\n").slice(-tailLines).join("\n");
    throw new Failure(`\`${[command, ...args].join(" ")}\` ended with ${code}:\n${tail}`);
  }
  return output;
}
