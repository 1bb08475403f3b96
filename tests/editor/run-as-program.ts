import { Failure } from "./failure";
import { wordsOf } from "./words-of";

/**
 * Runs a command-line program: a `Failure` is printed plainly, anything else with its stack; both exit 1.
 * A program told to stop leaves by the ordinary way out, on which whoever started a process or made a folder takes
 * it along.
 */
export function runAsProgram(main: () => Promise<number>): void {
  for (const signal of ["SIGINT", "SIGTERM", "SIGHUP"] as const)
    process.once(signal, () => process.exit(130));
  main().then(
    (code) => {
      process.exitCode = code;
    },
    (thrown: unknown) => {
      const text = thrown instanceof Failure || !(thrown instanceof Error) ? wordsOf(thrown) : thrown.stack;
      process.stderr.write(`${text}\n`);
      process.exitCode = 1;
    },
  );
}
