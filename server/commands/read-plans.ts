import { relative } from "node:path";
import { type Checked, checkSources } from "../workspace/check-sources";
import { type LoadedFiles, loadFiles } from "../workspace/load-files";
import { Misuse, type World } from "./world";

/** Reads the files a verb was asked about; without any, the folder it was called in. */
export async function loadAsked(words: readonly string[], world: World): Promise<LoadedFiles> {
  const paths = words.length === 0 ? ["."] : words;
  const input = paths.includes("-") ? await world.readInput() : undefined;
  const loaded = loadFiles({ paths, cwd: world.cwd, input });
  if (loaded.set.asked.length === 0) {
    const where = loaded.emptyFolders[0] ?? ".";
    throw new Misuse(`There is no plan file (ending in .practice) in “${where}”.`);
  }
  return loaded;
}

/** Milliseconds after which somebody who watches is told how far it is. */
export const PATIENCE = 1000;

/** Reads plans and, where wanted, checks them; long work shows how far it is to somebody who watches. */
export async function readPlans(
  words: readonly string[],
  world: World,
  options: { readonly findings: boolean },
): Promise<Checked> {
  const start = world.now();
  const { set } = await loadAsked(words, world);
  let told = false;
  const checked = checkSources(set, {
    findings: options.findings,
    progress: (done, all) => {
      if (!world.watched || world.now() - start < PATIENCE) return;
      told = true;
      world.err(`\r${done} of ${all} files checked`);
    },
  });
  if (told) world.err("\r\u001b[K");
  return checked;
}

/** Paths as they would be typed in the folder the command was called in. */
export function pathShower(cwd: string): (path: string) => string {
  const known = new Map<string, string>();
  return (path) => {
    const shown = known.get(path) ?? (relative(cwd, path).replaceAll("\\", "/") || path);
    known.set(path, shown);
    return shown;
  };
}
