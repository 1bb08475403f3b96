import { version } from "../../package.json";
import { safeText } from "../output/safe-text";
import { nearest } from "../plan/nearest";
import { carry } from "./carry";
import { check } from "./check";
import { compare } from "./compare";
import { explain } from "./explain";
import { format } from "./format";
import { help, VERB_NAMES } from "./help";
import { totals } from "./totals";
import { unroll } from "./unroll";
import { MISUSED, Misuse, type World } from "./world";

/** Opened only when it is asked for: notation is much code, and every other verb starts without it. */
async function write(args: readonly string[], world: World): Promise<number> {
  return (await import("./write")).write(args, world);
}

/** Does what the command line asks and gives the number to end with. Misuse is answered, not thrown. */
export async function run(args: readonly string[], world: World): Promise<number> {
  try {
    return await dispatch(args, world);
  } catch (error) {
    if (!(error instanceof Misuse)) throw error;
    world.err(`${safeText(error.message)}\n`);
    return MISUSED;
  }
}

async function dispatch([verb, ...rest]: readonly string[], world: World): Promise<number> {
  switch (verb) {
    case undefined:
      help([], world);
      return MISUSED;
    case "check":
    case "totals":
    case "explain":
    case "format":
    case "write":
    case "compare":
    case "unroll":
    case "carry":
      // Asked beside a verb, help is about the verb.
      if (rest.includes("--help") || rest.includes("-h")) return help([verb], world);
      return await { check, totals, explain, format, write, compare, unroll, carry }[verb](rest, world);
    case "help":
    case "--help":
    case "-h":
      return help(rest, world);
    case "version":
    case "--version":
      world.out(`leadpipe ${version}\n`);
      return 0;
    default: {
      const near = nearest(verb, VERB_NAMES);
      throw new Misuse(
        `There is no “leadpipe ${verb}”.${near === undefined ? " Try: leadpipe help" : ` Did you mean “leadpipe ${near}”?`}`,
      );
    }
  }
}
