import type { Position, TextEdit } from "vscode-languageserver-types";
import { beginsComment } from "../../grammar/tokens";
import type { Checked } from "../workspace/check-sources";
import { fileOf, linesOf, markLength, offsetOf, rangeOf } from "./lines-of";
import { pieceAt } from "./tree-at";

/** The keys after which a line is indented. */
export const ON_TYPE_TRIGGERS = { first: "\n", more: ["}"] } as const;

/** Each brace or bracket indents by this many spaces. */
const STEP = 2;

/**
 * Indents the line that a newline has just begun, or the line that a closing brace has just been typed on where
 * nothing stands before the brace. Nothing but the spaces at the start of that line is touched.
 */
export function formatOnType(checked: Checked, path: string, position: Position, typed: string): TextEdit[] {
  const file = fileOf(checked, path);
  if (file === undefined || (typed !== "\n" && typed !== "}")) return [];
  const { line } = linesOf(file).position(offsetOf(file, position));
  const text = linesOf(file).lineText(line);
  const lineStart = linesOf(file).offset({ line, column: 0 }) + (line === 0 ? markLength(file) : 0);
  const spaces = /^[ \t]*/.exec(line === 0 ? text.slice(markLength(file)) : text)?.[0] ?? "";
  const first = file.text.charAt(lineStart + spaces.length);
  if (typed === "}" && (first !== "}" || offsetOf(file, position) !== lineStart + spaces.length + 1))
    return [];
  const at = pieceAt(file.tree, lineStart);
  if (at === undefined) return [];
  const open = openAt(file.text, at.start, lineStart);
  const closes = first === "}" || first === "]";
  const indent = " ".repeat(STEP * Math.max(0, closes ? open - 1 : open));
  if (indent === spaces) return [];
  return [{ range: rangeOf(file, lineStart, lineStart + spaces.length), newText: indent }];
}

/** How many braces and brackets are open at an offset, counted from the start of the piece. */
function openAt(text: string, from: number, to: number): number {
  let open = 0;
  for (let at = from; at < to; at++) {
    const sign = text.charAt(at);
    if (sign === "{" || sign === "[") open++;
    else if (sign === "}" || sign === "]") open = Math.max(0, open - 1);
    else if (sign === "#" && beginsComment(text, at)) {
      while (at < to && text.charAt(at) !== "\n" && text.charAt(at) !== "\r") at++;
    }
  }
  return open;
}
