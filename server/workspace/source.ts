import { Memory } from "../../grammar/memory";
import type { Piece, SourceTree } from "../../grammar/piece";
import type { UseDeclaration } from "../../grammar/tree";
import type { Place } from "../plan/place";

/** A file that was read. */
export interface Source {
  readonly path: string;
  readonly text: string;
  readonly tree: SourceTree;
}

/** Why a file could not be read as a plan. */
export interface Failure {
  readonly code: "file-unreadable" | "file-too-large" | "file-not-text";
  readonly message: string;
}

/** The files of one check, read or not, and what else is known to lie beside them. */
export interface SourceSet {
  /** The files whose findings are wanted; the others are there because these use them. */
  readonly asked: readonly string[];
  readonly sources: ReadonlyMap<string, Source>;
  readonly failures: ReadonlyMap<string, Failure>;
  /** Other names of a file (a symbolic link), each with the path it is kept under. */
  readonly aliases: ReadonlyMap<string, string>;
  /** Plan files known to exist, read or not: where a misspelt path looks for its neighbour. */
  readonly known: ReadonlySet<string>;
  /** Other files are still to come, so nobody knows yet what is used and what is not. */
  readonly moreToCome?: boolean;
}

/** The name of the file that is brought in by itself. */
export const STUDIO_FILE = "studio.practice";

/** One `use` line. */
export interface Use {
  readonly declaration: UseDeclaration;
  readonly place: Place;
}

const knownUses = new Memory<SourceTree, readonly Use[]>();

/** The `use` lines of a file, in order. */
export function usesOf(tree: SourceTree): readonly Use[] {
  const known = knownUses.get(tree);
  if (known !== undefined) return known;
  const uses: Use[] = [];
  for (const piece of tree.pieces) {
    const { declaration } = piece;
    if (declaration?.kind === "use") {
      uses.push({ declaration, place: { piece, span: declaration.path.span } });
    }
  }
  knownUses.set(tree, uses);
  return uses;
}

/** The place of a file as a whole, for what is true of it before a word of it is read. */
export function wholeFile(tree: SourceTree): Place {
  return { piece: tree.pieces[0] ?? emptyPiece(), span: { start: 0, end: 0 } };
}

/** The tree that stands for a file which could not be read; a new one each time, for a place to hang on. */
export function unreadTree(): SourceTree {
  return { pieces: [emptyPiece()], starts: [0] };
}

function emptyPiece(): Piece {
  return { text: "", declaration: undefined, comments: [], verbatim: false, problems: [] };
}
