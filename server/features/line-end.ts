import { usesCrlf } from "../../grammar/format";
import type { CheckedFile } from "../workspace/check-sources";

/** How the lines of a file end, as most of them do. */
export function lineEndOf({ text }: Pick<CheckedFile, "text">): string {
  return usesCrlf(text) ? "\r\n" : "\n";
}

/** Where the line that holds an offset ends, before the signs that end it. */
export function endOfLine(text: string, offset: number): number {
  let at = offset;
  while (at < text.length && text.charCodeAt(at) !== 10 && text.charCodeAt(at) !== 13) at++;
  return at;
}
