import { safeText } from "../output/safe-text";
import { unrolledPlan } from "../output/unrolled-plan";
import { readOptions } from "./options";
import { loadAsked } from "./read-plans";
import { CLEAN, Misuse, type World } from "./world";

/**
 * `leadpipe unroll`: one plan file told line by line. Git calls it for its own diffs and stops when it ends with
 * anything but 0, so what cannot be read is told where the plan would stand.
 */
export async function unroll(args: readonly string[], world: World): Promise<number> {
  const { words } = readOptions("unroll", args, {});
  const [word, ...more] = words;
  if (word === undefined || more.length > 0)
    throw new Misuse("Name one file: leadpipe unroll autumn.practice");
  const { set } = await loadAsked([word], world);
  const [path = ""] = set.asked;
  const source = set.sources.get(path);
  const failure = set.failures.get(path);
  if (failure?.code === "file-unreadable") throw new Misuse(`“${word}”: ${failure.message}`);
  if (source === undefined) world.out(`${failure?.message ?? "This file cannot be opened."}\n`);
  else world.out(unrolledPlan(source.text).split("\n").map(safeText).join("\n"));
  return CLEAN;
}
