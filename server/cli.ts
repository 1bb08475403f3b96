import { join } from "node:path";
import { isatty } from "node:tty";
import { run } from "./commands/run";
import { MISUSED, type World } from "./commands/world";
import { NO_PAINT, TERMINAL_PAINT } from "./output/paint";
import { SIZE_LIMIT } from "./protocol/plan-text";
import type { AskGit } from "./workspace/revision-files";

// The other two streams are opened only when they are needed: each costs milliseconds.
const { stdout, env } = process;

/** Standard input to its end, or until it is past what is read of any file. */
async function readInput(): Promise<Uint8Array> {
  const chunks: Uint8Array[] = [];
  let length = 0;
  for await (const chunk of process.stdin) {
    const bytes = typeof chunk === "string" ? Buffer.from(chunk) : (chunk as Uint8Array);
    chunks.push(bytes);
    length += bytes.length;
    if (length > SIZE_LIMIT) break;
  }
  return Buffer.concat(chunks);
}

/** Colour on a terminal only, unless its owner wants none. */
function paintFor(stream: { readonly isTTY?: boolean }) {
  const wanted = (env["NO_COLOR"] ?? "") === "" && env["TERM"] !== "dumb";
  return stream.isTTY === true && wanted ? TERMINAL_PAINT : NO_PAINT;
}

/** The most that git may answer, in bytes: all the plan files of a large house and more. */
const MOST_OF_GIT = 512_000_000;

/** Asks git, in words that do not hang on its owner's language. The module is opened only when it is needed. */
const git: AskGit = async (words, input) => {
  const { spawnSync } = process.getBuiltinModule("node:child_process");
  const ended = spawnSync("git", [...words], {
    input: input ?? "",
    env: { ...env, LC_ALL: "C", GIT_OPTIONAL_LOCKS: "0" },
    maxBuffer: MOST_OF_GIT,
    windowsHide: true,
  });
  if (ended.error !== undefined && "code" in ended.error && ended.error.code === "ENOENT") return undefined;
  return { code: ended.status ?? 1, out: ended.stdout, err: ended.stderr.toString("utf8") };
};

/** The first interrupt asks the work to stop; after it a second one ends the program as ever. */
function interruption(): AbortSignal {
  const controller = new AbortController();
  process.once("SIGINT", () => controller.abort());
  return controller.signal;
}

const world: World = {
  cwd: process.cwd(),
  readInput,
  out: (text) => {
    stdout.write(text);
  },
  err: (text) => {
    process.stderr.write(text);
  },
  paint: paintFor(stdout),
  watched: isatty(2),
  engraver: async () => (await import("./launch-engraver")).launchEngraver(join(__dirname, "engraver.cjs")),
  press: async () => (await import("./launch-press")).launchPress(join(__dirname, "press.cjs")),
  interruption,
  today: () => new Date(),
  now: () => performance.now(),
  git,
};

// Whoever reads us may stop early (`leadpipe check | head`); that is no mistake.
stdout.on("error", (error: NodeJS.ErrnoException) => {
  if (error.code !== "EPIPE") throw error;
});

run(process.argv.slice(2), world).then(
  (code) => {
    process.exitCode = code;
  },
  (error: unknown) => {
    const why = error instanceof Error ? error.message.split("\n")[0] : String(error);
    process.stderr.write(`Leadpipe stopped on something it did not expect: ${why}\n`);
    if (env["LEADPIPE_TRACE"] === "1" && error instanceof Error) process.stderr.write(`${error.stack}\n`);
    process.exitCode = MISUSED;
  },
);
