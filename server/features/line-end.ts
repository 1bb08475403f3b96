import type { CheckedFile } from "../workspace/check-sources";

/** How the lines of a file end, as its first line does. */
export function lineEndOf({ text }: CheckedFile): string {
  return /\r\n|\n|\r/.exec(text)?.[0] ?? "\n";
}
