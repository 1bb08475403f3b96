import type { Source, SourceSet } from "./source";

/** The second set with the trees of the first wherever a file is the same, so that it is read and measured once. */
export function sharedSources(first: SourceSet, second: SourceSet): SourceSet {
  const sources = new Map<string, Source>();
  for (const [path, source] of second.sources) {
    const before = first.sources.get(path);
    sources.set(path, before?.text === source.text ? before : source);
  }
  return { ...second, sources };
}
