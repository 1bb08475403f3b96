import { readSource } from "../../grammar/pieces";
import { composed, folded, folderOf, foldersUp, joined, resolved } from "./paths";
import { type Failure, type Source, type SourceSet, STUDIO_FILE, usesOf } from "./source";

/** Whether a file is this one, or lies in this folder or below. */
export function isWithin(fileOrFolder: string, path: string): boolean {
  const [outer, inner] = [composed(fileOrFolder), composed(path)];
  return inner === outer || inner.startsWith(outer.endsWith("/") ? outer : `${outer}/`);
}

/** Plan files that are at hand, by their paths: those asked for, with all that they use. */
export function sourceSetOf(
  texts: ReadonlyMap<string, string>,
  failures: ReadonlyMap<string, Failure>,
  isAsked: (path: string) => boolean,
): SourceSet {
  const known = new Set([...texts.keys(), ...failures.keys()]);
  const asked = [...known].filter(isAsked);
  const byComposed = new Map([...known].map((path) => [composed(path), path]));
  const byFolded = new Map([...known].map((path) => [folded(path), path]));
  const sources = new Map<string, Source>();
  const read = (path: string): void => {
    const text = texts.get(path);
    if (text !== undefined && !sources.has(path)) sources.set(path, { path, text, tree: readSource(text) });
  };
  for (const path of asked) read(path);
  // Files join the map while it is walked, and what they use in turn.
  for (const source of sources.values()) {
    for (const meant of usedPaths(source)) {
      if (known.has(meant)) read(meant);
      else read(byComposed.get(composed(meant)) ?? byFolded.get(folded(meant)) ?? meant);
    }
    const studio = studioPaths(source.path).find((each) => known.has(each));
    if (studio !== undefined) read(studio);
  }
  return { asked, sources, failures, aliases: new Map(), known };
}

/** The paths that the `use` lines of a file mean. */
export function usedPaths({ path, tree }: Pick<Source, "path" | "tree">): readonly string[] {
  const folder = folderOf(path);
  return usesOf(tree).map(({ declaration }) => resolved(folder, declaration.path.text));
}

/** Where the studio file of a plan may lie, the nearest first; it counts where it is found first. */
export function studioPaths(path: string): readonly string[] {
  return foldersUp(folderOf(path)).map((above) => joined(above, STUDIO_FILE));
}
