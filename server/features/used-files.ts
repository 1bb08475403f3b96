import type { Span } from "../../grammar/span";
import type { Checked, CheckedFile } from "../workspace/check-sources";
import { folderOf, resolved } from "../workspace/paths";
import { type Use, usesOf } from "../workspace/source";
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
  return usesOf(file.tree).map((use) => {
    const { piece, span } = use.place;
    const start = checked.homes.get(piece)?.start ?? 0;
    const inside = insideQuotes(piece.text, span);
    return {
      use,
      span: { start: start + inside.start, end: start + inside.end },
      target: targetOf(checked, file, use),
    };
  });
}

/** The `use` line whose path holds this offset of the file. */
export function usedFileAt(checked: Checked, file: CheckedFile, offset: number): UsedFile | undefined {
  if (pieceAt(file.tree, offset)?.piece.declaration?.kind !== "use") return undefined;
  return usedFiles(checked, file).find(({ span }) => span.start - 1 <= offset && offset <= span.end + 1);
}

/** The file of that path, or else the one whose path differs in capitals alone, as the check has it. */
function targetOf(checked: Checked, file: CheckedFile, use: Use): CheckedFile | undefined {
  const wanted = resolved(folderOf(file.path), use.declaration.path.text);
  const folded = wanted.toLowerCase();
  return fileOf(checked, wanted) ?? checked.files.find(({ path }) => path.toLowerCase() === folded);
}
