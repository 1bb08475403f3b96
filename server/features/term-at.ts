import type { Term } from "../plan/term";
import type { CheckedFile } from "../workspace/check-sources";
import { pieceAt } from "./tree-at";

/**
 * The term of a file that a cursor has in view: the one it stands in, else the last one above it, else the first
 * one below. Undefined where the file holds none.
 */
export function termAt(file: CheckedFile, offset: number): Term | undefined {
  const at = pieceAt(file.tree, offset);
  const order = new Map(file.tree.pieces.map((piece, index) => [piece, index]));
  const here = at === undefined ? 0 : (order.get(at.piece) ?? 0);
  const { terms } = file.plan.own;
  return terms.findLast((term) => (order.get(term.place.piece) ?? 0) <= here) ?? terms[0];
}
