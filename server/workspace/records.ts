import { Memory } from "../../grammar/memory";
import type { Piece, SourceTree } from "../../grammar/piece";
import { type Record, readRecord } from "../plan/record";
import type { SourceSet } from "./source";
import type { UseGraph } from "./uses";

/** A record is read once, so that the plans that share it share what hangs on it. */
const records = new Memory<Piece, Record>();
const recordsInTree = new Memory<SourceTree, readonly Record[]>();

/** The records that a file holds. */
export function recordsIn(tree: SourceTree): readonly Record[] {
  const before = recordsInTree.get(tree);
  if (before !== undefined) return before;
  const found = tree.pieces.flatMap((piece) => {
    const { declaration } = piece;
    if (declaration?.kind !== "record") return [];
    const known = records.get(piece) ?? readRecord(piece, declaration).record;
    records.set(piece, known);
    return [known];
  });
  recordsInTree.set(tree, found);
  return found;
}

const termsInTree = new Memory<SourceTree, ReadonlySet<string>>();

function termsIn(tree: SourceTree): ReadonlySet<string> {
  const before = termsInTree.get(tree);
  if (before !== undefined) return before;
  const names = new Set(
    tree.pieces.flatMap(({ declaration }) => (declaration?.kind === "term" ? [declaration.name.text] : [])),
  );
  termsInTree.set(tree, names);
  return names;
}

/**
 * What other files recorded of the terms of each file. A record belongs to the term of its name among the
 * files it uses, so that two years may each have an “Autumn”.
 */
export function recordsByTerm(set: SourceSet, graph: UseGraph): ReadonlyMap<string, readonly Record[]> {
  const byFile = new Map<string, Record[]>();
  for (const { path, tree } of set.sources.values()) {
    const kept = recordsIn(tree);
    if (kept.length === 0) continue;
    for (const used of graph.usedBy(path)) {
      // A term's file that uses the record itself has it already.
      if (graph.usedBy(used).includes(path)) continue;
      const source = set.sources.get(used);
      const terms = source === undefined ? undefined : termsIn(source.tree);
      const mine = kept.filter((record) => terms?.has(record.term.text) === true);
      if (mine.length === 0) continue;
      byFile.set(used, [...(byFile.get(used) ?? []), ...mine]);
    }
  }
  return byFile;
}
