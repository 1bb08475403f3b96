import type { Exercise } from "../plan/exercise";
import { AS_WRITTEN, barSigns, firstNote } from "./bar-signs";
import { asNumbered, changedBars } from "./changed-bars";
import { changedLines } from "./changed-lines";
import type { BarChange, BookChanges, Both, Rewriting } from "./comparison";
import { exerciseLines } from "./exercise-lines";

type Book = ReadonlyMap<string, Exercise>;

/**
 * What became of the exercises. One whose name is gone is looked for under the names that are new: the same
 * notes (or page, or activity), wherever they lie, are the same exercise.
 */
export function bookChanges(before: Book, after: Book): BookChanges {
  const gone = [...before.values()].filter((each) => !after.has(each.name));
  const fresh = [...after.values()].filter((each) => !before.has(each.name));
  const renamed = renamedAmong(gone, fresh);
  const pairs: Both<Exercise>[] = [...before.values()].flatMap((each) => {
    const same = after.get(each.name) ?? renamed.get(each);
    return same === undefined ? [] : [{ before: each, after: same }];
  });
  const newNames = new Set(renamed.values());
  return {
    added: fresh
      .filter((each) => !newNames.has(each))
      .map((each) => each.name)
      .sort(),
    dropped: gone
      .filter((each) => !renamed.has(each))
      .map((each) => each.name)
      .sort(),
    renamed: byName([...renamed].map(([old, now]) => ({ before: old.name, after: now.name }))),
    rewritten: pairs.flatMap((pair) => rewriting(pair) ?? []).sort((a, b) => order(a.exercise, b.exercise)),
  };
}

function byName(names: Both<string>[]): readonly Both<string>[] {
  return names.sort(order);
}

/** By the two names in an order that does not hang on which side comes first. */
function order(a: Both<string>, b: Both<string>): number {
  const key = ({ before, after }: Both<string>): string => [before, after].sort().join("\n");
  return key(a) < key(b) ? -1 : 1;
}

function renamedAmong(
  gone: readonly Exercise[],
  fresh: readonly Exercise[],
): ReadonlyMap<Exercise, Exercise> {
  const renamed = new Map<Exercise, Exercise>();
  const taken = new Set<Exercise>();
  // Of several exercises with the same notes, one that says the same beside them goes first.
  for (const sign of [wholeSign, contentSign]) {
    const signs = new Map(fresh.filter((each) => !taken.has(each)).map((each) => [each, sign(each)]));
    for (const old of gone) {
      if (renamed.has(old)) continue;
      const wanted = sign(old);
      const now = [...signs.keys()].find((each) => !taken.has(each) && signs.get(each) === wanted);
      if (now === undefined) continue;
      renamed.set(old, now);
      taken.add(now);
    }
  }
  return renamed;
}

function wholeSign(exercise: Exercise): string {
  return [contentSign(exercise), ...[...exerciseLines(exercise)].flat()].join("\n");
}

/** What is played, apart from where it lies and how fast it goes. */
function contentSign({ content, series }: Exercise): string {
  const cells = series === undefined ? "" : `${series.cells} ${series.semitones}`;
  switch (content.kind) {
    case "notes":
      return ["notes", cells, ...barSigns(content.score, firstNote(content.score))].join("\n");
    case "printed":
      return ["printed", content.title, content.page, content.bars?.from, content.bars?.to].join("\n");
    case "activity":
      return ["activity", content.activity, content.loadsLips, content.seconds].join("\n");
  }
}

/** How one exercise is written anew; undefined where it is not. */
function rewriting({ before, after }: Both<Exercise>): Rewriting | undefined {
  // The same words of the same file mean the same.
  if (before === after) return undefined;
  const bars = barsChanged(before, after);
  const lines = changedLines(exerciseLines(before), exerciseLines(after));
  if (bars.length === 0 && lines.length === 0) return undefined;
  return { exercise: { before: before.name, after: after.name }, bars, lines };
}

function barsChanged(before: Exercise, after: Exercise): readonly BarChange[] {
  const [a, b] = [before.content, after.content];
  if (a.kind !== "notes" || b.kind !== "notes") return [];
  const moved = changedBars(barSigns(a.score, firstNote(a.score)), barSigns(b.score, firstNote(b.score)));
  // Moved as a whole, only its key is another.
  if (moved.length === 0) return [];
  const written = changedBars(barSigns(a.score, AS_WRITTEN), barSigns(b.score, AS_WRITTEN));
  return asNumbered(written, a.score, b.score);
}
