import type { TextEdit } from "vscode-languageserver-types";
import type { MusicElement } from "../../grammar/tree";
import { pitchName } from "../music/pitch";
import type { Checked, CheckedFile } from "../workspace/check-sources";
import { rangeOf } from "./lines-of";
import { keepsItsNotes, type OwnMusic } from "./refactor-music";

/**
 * The edits that write the degrees of an exercise as notes. Undefined where that is not the very same, as where a
 * term asks for the exercise in another mode: only degrees can change theirs.
 */
export function notesEdits(
  checked: Checked,
  file: CheckedFile,
  music: OwnMusic,
): readonly TextEdit[] | undefined {
  const { field, start, content } = music;
  if (field.by !== "degrees") return undefined;
  const names = new Map<number, string>();
  for (const bar of content.score.bars) {
    for (const event of bar.events) {
      if (event.kind === "note" && event.pitch !== undefined) {
        names.set(event.span.start, pitchName(event.pitch));
      }
    }
  }
  const edits: TextEdit[] = [
    { range: rangeOf(file, start + field.span.start, start + field.music.span.start), newText: "music     " },
  ];
  for (const element of degreesIn(field.music.elements)) {
    const name = names.get(element.span.start);
    if (name === undefined) return undefined;
    edits.push({
      range: rangeOf(file, start + element.span.start, start + element.span.end),
      newText: name,
    });
  }
  return edits.length > 1 && keepsItsNotes(checked, file, music, edits) ? edits : undefined;
}

function* degreesIn(elements: readonly MusicElement[]): Generator<MusicElement> {
  for (const element of elements) {
    if (element.kind === "degree") yield element;
    else if ("elements" in element) yield* degreesIn(element.elements);
  }
}
