import { join } from "node:path";
import { isatty } from "node:tty";
import { run } from "./commands/run";
import { MISUSED, type World } from "./commands/world";
import { launchEngraver } from "./launch-engraver";
import { NO_PAINT, TERMINAL_PAINT } from "./output/paint";
import { SIZE_LIMIT } from "./workspace/load-files";

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
  engraver: () => launchEngraver(join(__dirname, "engraver.cjs")),
  now: () => performance.now(),
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
