import type { TextEdit } from "vscode-languageserver-types";
import type { MusicElement } from "../../grammar/tree";
import { degreePitch, type Key, parseTonic, tonicPitch } from "../music/key";
import { alterText, midiOf, type Pitch, parsePitch, pitchName, staffPosition } from "../music/pitch";
import type { Checked, CheckedFile } from "../workspace/check-sources";
import { rangeOf } from "./lines-of";
import { keepsItsNotes, type OwnMusic } from "./refactor-music";

/** One written note, with the key in force and where it lies above (or, negative, below) that key's tonic. */
interface Note {
  readonly element: MusicElement;
  readonly pitch: Pitch;
  readonly key: Key;
  readonly lies: number;
}

/**
 * The edits that write the notes of an exercise as scale degrees. Undefined where they do not mean the very same
 * notes, or where something new would be found.
 */
export function degreesEdits(
  checked: Checked,
  file: CheckedFile,
  music: OwnMusic,
): readonly TextEdit[] | undefined {
  const { field, start, content } = music;
  if (field.by !== "pitches" || content.key === undefined) return undefined;
  const octave = homeOctave(field.music.elements, content.key);
  if (octave === undefined) return undefined;
  const notes = notesOf(field.music.elements, content.key, octave);
  if (notes === undefined || notes.length === 0) return undefined;
  const from = pitchName(tonicPitch(content.key, octave));
  const edits: TextEdit[] = [
    {
      range: rangeOf(file, start + field.span.start, start + field.music.span.start),
      newText: `degrees from ${from} `,
    },
  ];
  for (const [i, note] of notes.entries()) {
    const text = degreeText(note, directionAt(notes, i), octave);
    if (text === undefined) return undefined;
    const { span } = note.element;
    edits.push({ range: rangeOf(file, start + span.start, start + span.end), newText: text });
  }
  return keepsItsNotes(checked, file, music, edits) ? edits : undefined;
}

/** The tonic's octave: the last one at or under the first note, so that most degrees count upwards. */
function homeOctave(elements: readonly MusicElement[], key: Key): number | undefined {
  const first = firstPitch(elements);
  if (first === undefined) return undefined;
  let { octave } = first;
  while (staffPosition(tonicPitch(key, octave)) > staffPosition(first)) octave--;
  while (staffPosition(tonicPitch(key, octave + 1)) <= staffPosition(first)) octave++;
  return octave;
}

function firstPitch(elements: readonly MusicElement[]): Pitch | undefined {
  for (const element of elements) {
    if (element.kind === "pitch") return parsePitch(element.text);
    const inner = "elements" in element ? firstPitch(element.elements) : undefined;
    if (inner !== undefined) return inner;
  }
  return undefined;
}

function notesOf(elements: readonly MusicElement[], home: Key, octave: number): readonly Note[] | undefined {
  const notes: Note[] = [];
  let key = home;
  const read = (list: readonly MusicElement[]): boolean =>
    list.every((element) => {
      if ("elements" in element) return read(element.elements);
      if (element.kind === "key change") {
        const tonic = parseTonic(element.key.tonic);
        if (tonic === undefined) return false;
        const { mode } = element.key;
        key = { ...tonic, mode: mode === undefined ? "major" : mode === "minor" ? "natural minor" : mode };
        return true;
      }
      if (element.kind !== "pitch") return true;
      const pitch = parsePitch(element.text);
      if (pitch === undefined) return false;
      notes.push({
        element,
        pitch,
        key,
        lies: staffPosition(pitch) - staffPosition(tonicPitch(key, octave)),
      });
      return true;
    });
  return read(elements) ? notes : undefined;
}

/** Where the line goes on to from a note, which the melodic minor asks: repeated notes wait for the next other one. */
function directionAt(notes: readonly Note[], at: number): "up" | "down" {
  const here = notes[at]?.lies ?? 0;
  const next = notes.slice(at + 1).find(({ lies }) => lies !== here);
  return next !== undefined && next.lies < here ? "down" : "up";
}

/** A note as the language writes its degree: `5`, `#4`, `-b7`. Undefined for what no degree reaches. */
function degreeText(
  { pitch, key, lies }: Note,
  direction: "up" | "down",
  octave: number,
): string | undefined {
  const degree = lies >= 0 ? lies + 1 : lies >= -7 ? -(lies + 8) : -(lies + 22);
  if (degree > 22 || lies < -14) return undefined;
  const alter = midiOf(pitch) - midiOf(degreePitch(key, octave, degree, 0, direction));
  if (alter < -2 || alter > 2) return undefined;
  return `${degree < 0 ? "-" : ""}${alterText(alter)}${Math.abs(degree)}`;
}
