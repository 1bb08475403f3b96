import { spawnSync } from "node:child_process";

/** Runs Node on these arguments in a fresh process; how long that took from start to end, in milliseconds. */
export function timeOfNode(args: readonly string[]): number {
  const start = performance.now();
  run(args, "ignore");
  return performance.now() - start;
}

/**
 * The child says at its end how much memory it held at its fullest. Its own high-water mark is asked for where
 * the system keeps one (Linux), for `maxRSS` there counts in the parent that started it.
 */
const REPORT = `data:text/javascript,${encodeURIComponent(`
  import { readFileSync, writeSync } from "node:fs";
  process.on("exit", () => {
    let kilobytes = process.resourceUsage().maxRSS;
    try {
      kilobytes = Number(/VmHWM:\\s+(\\d+)/.exec(readFileSync("/proc/self/status", "utf8"))[1]);
    } catch {}
    writeSync(3, String(kilobytes));
  });
`)}`;

/** Node's arguments that let a process say at its end, on stream 3, how many kilobytes it held at its fullest. */
export const REPORTING = ["--import", REPORT] as const;

/** The most resident memory of a fresh Node process on these arguments, in megabytes. */
export function memoryOfNode(args: readonly string[]): number {
  const output = run([...REPORTING, ...args], "pipe");
  return Number(output) / 1024;
}

function run(args: readonly string[], report: "ignore" | "pipe"): string {
  const child = spawnSync(process.execPath, args, {
    stdio: ["ignore", "ignore", "pipe", report],
    env: { ...process.env, NODE_OPTIONS: "" },
    encoding: "utf8",
  });
  // Findings at error level end a check with 1; anything else is no check at all.
  if (child.status !== 0 && child.status !== 1) {
    throw new Error(`node ${args.at(-2)} ${args.at(-1)} ended with ${child.status}: ${child.stderr}`);
  }
  return child.output[3] ?? "";
}
