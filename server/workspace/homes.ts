import { Memory } from "../../grammar/memory";
import type { Piece, SourceTree } from "../../grammar/piece";

const knownStarts = new Memory<SourceTree, ReadonlyMap<Piece, number>>();

/** Where each piece of a tree begins, looked up once for as long as the tree is the same. */
export function startsOf(tree: SourceTree): ReadonlyMap<Piece, number> {
  const known = knownStarts.get(tree);
  if (known !== undefined) return known;
  const starts = new Map(tree.pieces.map((piece, i) => [piece, tree.starts[i] ?? 0]));
  knownStarts.set(tree, starts);
  return starts;
}

/** Where a piece was found last: nearly always where it still is. */
const lastHome = new Memory<Piece, string>();

/** The homes of the pieces of some files, found when they are asked for. */
export class Homes<File extends { readonly path: string; readonly tree: SourceTree }> {
  constructor(private readonly files: ReadonlyMap<string, File>) {}

  get(piece: Piece): { readonly file: File; readonly start: number } | undefined {
    const last = this.files.get(lastHome.get(piece) ?? "");
    const there = last === undefined ? undefined : startsOf(last.tree).get(piece);
    if (last !== undefined && there !== undefined) return { file: last, start: there };
    for (const file of this.files.values()) {
      const start = startsOf(file.tree).get(piece);
      if (start === undefined) continue;
      lastHome.set(piece, file.path);
      return { file, start };
    }
    return undefined;
  }
}
