import type { Position, Range, TextEdit, WorkspaceEdit } from "vscode-languageserver-types";
import { readSource } from "../../grammar/pieces";
import { quoted } from "../rules/words";
import type { Checked, CheckedFile } from "../workspace/check-sources";
import { fileOf, offsetOf, type Places, spanRange } from "./lines-of";
import {
  filesThatSee,
  insideQuotes,
  kindWord,
  nameAt,
  type Occurrence,
  occurrencesOf,
  type Thing,
  thingNamed,
  thingOf,
} from "./names";
import { usedFileAt } from "./used-files";

/** Why something is not renamed, for the teacher to read. */
export interface Refused {
  readonly refused: string;
}

/** The name that would be changed. */
export interface Renamable {
  /** What stands between the quotes. */
  readonly range: Range;
  readonly placeholder: string;
}

/** What stands at a position, if it is a name that can be changed. */
export function prepareRename(checked: Checked, path: string, position: Position): Renamable | Refused {
  const found = findThing(checked, path, position);
  if ("refused" in found) return found;
  const { file, piece, start, mention } = found.name;
  return {
    range: spanRange(file, start, insideQuotes(piece.text, mention.span)),
    placeholder: mention.text,
  };
}

/**
 * Gives what stands at a position another name, everywhere and in all files. The quotes stay as they are.
 * Refused where the new name cannot be read as one, or is borne already where this one is seen.
 */
export function rename(
  checked: Checked,
  path: string,
  position: Position,
  newName: string,
  places: Places,
): { readonly edit: WorkspaceEdit } | Refused {
  const found = findThing(checked, path, position);
  if ("refused" in found) return found;
  const name = newName.trim().normalize("NFC");
  const { thing } = found;
  const fault = nameFault(name) ?? (name === thing.mention.text ? undefined : takenBy(checked, thing, name));
  if (fault !== undefined) return { refused: fault };
  const changes: Record<string, TextEdit[]> = {};
  if (name !== thing.mention.text) {
    for (const { file, piece, start, mention } of occurrencesOf(checked, thing)) {
      const range = spanRange(file, start, insideQuotes(piece.text, mention.span));
      const uri = places.uriOf(file.path);
      changes[uri] ??= [];
      changes[uri].push({ range, newText: name });
    }
  }
  return { edit: { changes } };
}

function findThing(
  checked: Checked,
  path: string,
  position: Position,
): { readonly name: Occurrence; readonly thing: Thing } | Refused {
  const file = fileOf(checked, path);
  if (file === undefined) return NO_NAME;
  const offset = offsetOf(file, position);
  if (usedFileAt(checked, file, offset) !== undefined) {
    return { refused: "This is the name of a file. Rename the file itself, then write its new name here." };
  }
  const name = nameAt(file, offset);
  if (name === undefined) return NO_NAME;
  const thing = thingOf(name);
  if (thing === undefined) {
    const { kind, text } = name.mention;
    const what = kind === "player" ? "level or student" : kind;
    return { refused: `There is no ${what} ${quoted(text)} here, so there is nothing to rename.` };
  }
  return { name, thing };
}

const NO_NAME: Refused = {
  refused:
    "Only the name of an area, exercise, routine, level, student, term or studio can be changed everywhere at once.",
};

/** What is wrong with a name, if anything. */
function nameFault(name: string): string | undefined {
  if (name === "") return "A name needs at least one letter.";
  if (/["“”„«»]/.test(name)) return "A name cannot hold quotation marks.";
  if (/[{}]/.test(name)) return "A name cannot hold braces.";
  if (/[\r\n]/.test(name)) return "A name must stand on one line.";
  // Read as it would be written, so that nothing is let through that the plan then cannot read.
  const [piece, ...others] = readSource(`area "${name}"\n`).pieces;
  const reads = piece?.declaration?.kind === "area" && piece.declaration.name.text === name;
  if (reads && piece.problems.length === 0 && others.length === 0) return undefined;
  return "This name holds a sign that cannot be seen. Type it anew.";
}

/** Says who bears the name already, in any file that sees this thing. */
function takenBy(checked: Checked, thing: Thing, name: string): string | undefined {
  const { kind } = thing.mention;
  // There is one studio, whatever it is called.
  if (kind === "studio") return undefined;
  const other = filesThatSee(checked, thing)
    .map((file: CheckedFile) => thingNamed(file, kind, name))
    .find((each) => each !== undefined);
  if (other === undefined) return undefined;
  const word = kindWord(other);
  const article = /^[ae]/.test(word) ? "an" : "a";
  return `There already is ${article} ${word} ${quoted(name)}. Nobody could tell which of the two is meant.`;
}
