import type { Piece, SourceTree } from "../../grammar/piece";
import type { Plan } from "../plan/plan";
import type { Finding } from "../rules/finding";
import type { Ground } from "../rules/ground";
import type { ResolvedUse } from "./uses";

/**
 * A file with what it means and what was found in it. Plan, ground and findings are worked out when they are
 * first asked for, so that who needs the tree alone does not wait for them.
 */
export interface CheckedFile {
  readonly path: string;
  readonly text: string;
  readonly tree: SourceTree;
  /** The pieces of the files it uses, farthest first: what its names may mean besides its own. */
  readonly used: readonly (readonly Piece[])[];
  /** Its `use` lines in their order, with the files they mean, through links too. */
  readonly uses: readonly ResolvedUse[];
  readonly plan: Plan;
  /** What the plan was read and checked with; a proposed change is measured on the same ground. */
  readonly ground: Ground;
  /** By place, from the top of the file down. */
  readonly findings: readonly Finding[];
  /** Whether its findings were asked for; otherwise it is here because another file uses it. */
  readonly asked: boolean;
}

/** Which file a piece stands in, and where in its text it begins. */
export interface PieceHomes {
  get(piece: Piece): { readonly file: CheckedFile; readonly start: number } | undefined;
}

export interface Checked {
  readonly files: readonly CheckedFile[];
  readonly homes: PieceHomes;
}
