import type { Span } from "../../grammar/span";
import type { Checked, CheckedFile } from "../workspace/check-sources";
import type { Use } from "../workspace/source";
import { fileOf } from "./lines-of";
import { insideQuotes } from "./names";
import { pieceAt } from "./tree-at";

/** Which files the `use` lines of a file mean. */

/** A `use` line with the file it means. */
export interface UsedFile {
  readonly use: Use;
  /** The path without its quotes, counted from the start of the file. */
  readonly span: Span;
  /** Undefined where there is no such file. */
  readonly target: CheckedFile | undefined;
}

/** The `use` lines of a file in their order. */
export function usedFiles(checked: Checked, file: CheckedFile): readonly UsedFile[] {
  return file.uses.map(({ use, path }) => {
    const { piece, span } = use.place;
    const start = checked.homes.get(piece)?.start ?? 0;
    const inside = insideQuotes(piece.text, span);
    return {
      use,
      span: { start: start + inside.start, end: start + inside.end },
      target: path === undefined ? undefined : fileOf(checked, path),
    };
  });
}

/** The `use` line whose path holds this offset of the file. */
export function usedFileAt(checked: Checked, file: CheckedFile, offset: number): UsedFile | undefined {
  if (pieceAt(file.tree, offset)?.piece.declaration?.kind !== "use") return undefined;
  return usedFiles(checked, file).find(({ span }) => span.start - 1 <= offset && offset <= span.end + 1);
}
