import type { DocumentLink } from "vscode-languageserver-types";
import type { Checked } from "../workspace/check-sources";
import { fileName } from "../workspace/paths";
import { fileOf, type Places, rangeOf } from "./lines-of";
import { usedFiles } from "./used-files";

/** The paths of the `use` lines, each leading to its file. A path that leads nowhere is no link. */
export function documentLinks(checked: Checked, path: string, places: Places): DocumentLink[] {
  const file = fileOf(checked, path);
  if (file === undefined) return [];
  return usedFiles(checked, file).flatMap(({ span, target }) =>
    target === undefined
      ? []
      : [
          {
            range: rangeOf(file, span.start, span.end),
            target: places.uriOf(target.path),
            tooltip: `Open ${fileName(target.path)}`,
          },
        ],
  );
}
