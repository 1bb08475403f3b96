import { writeFileSync } from "node:fs";
import { format as formatted } from "../../grammar/format";
import { counted } from "../output/numbers";
import { safeText } from "../output/safe-text";
import { STANDARD_INPUT, whyUnreadable } from "../workspace/load-files";
import { fileName } from "../workspace/paths";
import { readOptions } from "./options";
import { loadAsked, pathShower } from "./read-plans";
import { CLEAN, FOUND, type World } from "./world";

/** `leadpipe format`: the one way a plan is laid out; with --check it only says what differs. */
export async function format(args: readonly string[], world: World): Promise<number> {
  const { words, switches } = readOptions("format", args, { check: "switch" });
  const onlyCheck = switches.has("check");
  const { set } = await loadAsked(words, world);
  const showPath = pathShower(world.cwd);
  let ended = CLEAN;
  let changed = 0;
  for (const path of set.asked) {
    const name = safeText(showPath(path));
    const source = set.sources.get(path);
    if (source === undefined) {
      world.err(`${name}: ${set.failures.get(path)?.message ?? "This file cannot be opened."}\n`);
      ended = FOUND;
      continue;
    }
    const text = formatted(source.text);
    const fromInput = fileName(path) === STANDARD_INPUT;
    if (fromInput && !onlyCheck) {
      world.out(text);
      continue;
    }
    if (text === source.text) continue;
    changed++;
    if (onlyCheck) {
      world.out(`${name} is laid out differently\n`);
      ended = FOUND;
      continue;
    }
    try {
      writeFileSync(path, text);
      world.out(`${name}\n`);
    } catch (error) {
      world.err(`${name}: ${whyUnreadable(error)}\n`);
      ended = FOUND;
    }
  }
  if (!words.includes("-") || onlyCheck) {
    const verb = onlyCheck ? "to be laid out anew" : "laid out anew";
    world.out(`${counted(changed, "file")} of ${set.asked.length} ${verb}\n`);
  }
  return ended;
}
