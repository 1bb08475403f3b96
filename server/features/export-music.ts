import { placementName } from "../days/placement";
import { type EngravingTask, engravingTask } from "../notation/engrave";
import { midiOf } from "../notation/midi";
import { FILE_STYLE, musicXmlOf } from "../notation/musicxml";
import { writtenOut } from "../notation/write-out";
import { fileNames } from "../output/file-names";
import type { ExportParams } from "../protocol/requests";
import type { Checked } from "../workspace/check-sources";
import { musicAt, sheetAskOf } from "./asked-music";
import { fileOf, offsetOf } from "./lines-of";

/** What goes into a file: text, bytes, or a picture that is still to be engraved. */
export type Exported =
  | { readonly fileName: string; readonly content: string | Uint8Array | EngravingTask }
  | { readonly trouble: string };

/** Pixels across a picture: seven or so bars in a line, as on the command line. */
const PICTURE_WIDTH = 900;

const ENDINGS: Readonly<Record<ExportParams["form"], string>> = {
  musicxml: ".musicxml",
  midi: ".mid",
  svg: ".svg",
};

/** The exercise at a position as a file: in the key and at the tempo that its line in a session says. */
export function exportedMusic(
  checked: Checked,
  path: string,
  { position, form }: Pick<ExportParams, "position" | "form">,
): Exported {
  const file = fileOf(checked, path);
  const music = file === undefined ? undefined : musicAt(checked, file, offsetOf(file, position), true);
  if (music === undefined) {
    return { trouble: "Put the cursor into an exercise, or on its line in a session." };
  }
  const ask = sheetAskOf(music);
  const written = writtenOut(ask);
  const { name } = ask.exercise;
  if (written.kind !== "sheet") {
    const why =
      written.kind === "printed"
        ? "printed music: Leadpipe knows its page, not its notes."
        : "work without notes.";
    return { trouble: `“${name}” is ${why}` };
  }
  const { sheet } = written;
  if (sheet.bars.length === 0) return { trouble: `“${name}” has no notes yet.` };
  const [first, ...others] = ask.placements ?? [];
  const where = first === undefined || others.length > 0 ? "" : placementName(first);
  const title = where === "" ? name : `${name}, ${where}`;
  const [fileName = ""] = fileNames([title], ENDINGS[form]);
  switch (form) {
    case "musicxml":
      return { fileName, content: musicXmlOf(sheet, FILE_STYLE) };
    case "midi":
      return { fileName, content: midiOf(sheet) };
    case "svg":
      return { fileName, content: engravingTask(sheet, title, { width: PICTURE_WIDTH, fingerings: false }) };
  }
}
