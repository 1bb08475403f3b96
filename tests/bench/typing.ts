import type { Judge } from "./judge";
import { keystrokes, sharedBook } from "./keystroke";

/**
 * Types in an editor of its own process: what this process keeps in memory and collects would otherwise be
 * measured with the server. Takes the server, and for the shared book the folder of a conservatory; prints what is
 * to be judged, a line of JSON for each.
 */

const [server = "", folder] = process.argv.slice(2);
const judge: Judge = (...judged) => process.stdout.write(`${JSON.stringify(judged)}\n`);
await (folder === undefined ? keystrokes({ server, judge }) : sharedBook({ server, judge }, folder));
