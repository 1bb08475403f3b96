import { counted } from "../rules/words";
import type { CheckedFile } from "./checked";
import type { Failure } from "./source";

/** What of some files could not be read, file by file, each with a sentence that says why. */
export function unreadIn(
  files: readonly Pick<CheckedFile, "path" | "tree">[],
  failures: ReadonlyMap<string, Failure>,
): readonly { readonly path: string; readonly why: string }[] {
  return files.flatMap(({ path, tree }) => {
    const failure = failures.get(path);
    if (failure !== undefined) return [{ path, why: failure.message }];
    const problems = tree.pieces.reduce((sum, piece) => sum + piece.problems.length, 0);
    return problems === 0 ? [] : [{ path, why: `${counted(problems, "place")} cannot be read.` }];
  });
}
