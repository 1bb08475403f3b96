import { version } from "../../package.json";
import { safeText } from "../output/safe-text";
import { nearest } from "../plan/nearest";
import { check } from "./check";
import { explain } from "./explain";
import { format } from "./format";
import { help, VERB_NAMES } from "./help";
import { totals } from "./totals";
import { MISUSED, Misuse, type World } from "./world";

type Verb = (args: readonly string[], world: World) => Promise<number>;

// Opened only when they are asked for: they are much code, and the verbs of every day start without it.
const calendar: Verb = async (args, world) => (await import("./calendar")).calendar(args, world);
const carry: Verb = async (args, world) => (await import("./carry")).carry(args, world);
const compare: Verb = async (args, world) => (await import("./compare")).compare(args, world);
const print: Verb = async (args, world) => (await import("./print")).print(args, world);
const read: Verb = async (args, world) => (await import("./read")).read(args, world);
const report: Verb = async (args, world) => (await import("./report")).report(args, world);
const unroll: Verb = async (args, world) => (await import("./unroll")).unroll(args, world);
const write: Verb = async (args, world) => (await import("./write")).write(args, world);

const WORKING = {
  calendar,
  carry,
  check,
  compare,
  explain,
  format,
  print,
  read,
  report,
  totals,
  unroll,
  write,
} as const;

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
    case "calendar":
    case "carry":
    case "check":
    case "compare":
    case "explain":
    case "format":
    case "print":
    case "read":
    case "report":
    case "totals":
    case "unroll":
    case "write":
      // Asked beside a verb, help is about the verb.
      if (rest.includes("--help") || rest.includes("-h")) return help([verb], world);
      return await WORKING[verb](rest, world);
    case "serve":
      // Asked for anything but help it never comes here: the server is a program of its own.
      return help([verb], world);
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
