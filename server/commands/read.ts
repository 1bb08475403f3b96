import { readFileSync, statSync } from "node:fs";
import { basename, extname, resolve } from "node:path";
import { melodyText } from "../notation/melody-text";
import { readMelody } from "../notation/read-melody";
import { ForeignFileError, LONGEST_XML, readXml } from "../notation/read-xml";
import { safeText } from "../output/safe-text";
import { whyUnreadable } from "../workspace/load-files";
import { readOptions } from "./options";
import { CLEAN, FOUND, Misuse, type World } from "./world";

/** Signs take up to four bytes; what is longer is not even opened. */
const MOST_BYTES = 4 * LONGEST_XML;

/** `leadpipe read`: a melody from a notation program as the text of an exercise, and what was left out of it. */
export async function read(args: readonly string[], world: World): Promise<number> {
  const { words, values } = readOptions("read", args, { area: "value", name: "value" });
  const [path, ...more] = words;
  if (path === undefined || more.length > 0) {
    throw new Misuse("Name one MusicXML file: leadpipe read tune.musicxml");
  }
  try {
    const bytes = path === "-" ? await world.readInput() : bytesOf(resolve(world.cwd, path));
    const melody = readMelody(readXml(textOf(bytes)));
    const own = melody.title === "" ? basename(path, extname(path)) : melody.title;
    world.out(melodyText(melody, values.get("name") ?? own, values.get("area") ?? "Songs"));
    for (const line of melody.supplied) world.err(`The file does not say it, so there stands: ${line}\n`);
    if (melody.leftOut.length > 0) world.err(`Left out: ${safeText(melody.leftOut.join(", "))}.\n`);
    return CLEAN;
  } catch (error) {
    if (!(error instanceof ForeignFileError)) throw error;
    world.err(`${safeText(path)}: ${safeText(error.message)}\n`);
    return FOUND;
  }
}

function bytesOf(path: string): Uint8Array {
  try {
    if (statSync(path).size > MOST_BYTES) {
      throw new ForeignFileError(`This file is larger than the ${MOST_BYTES / 1_000_000} MB that are read.`);
    }
    return readFileSync(path);
  } catch (error) {
    if (error instanceof ForeignFileError) throw error;
    throw new ForeignFileError(whyUnreadable(error));
  }
}

/** UTF-8, or UTF-16 where the file begins with its mark. */
function textOf(bytes: Uint8Array): string {
  const [first, second] = bytes;
  if (first === 0x50 && second === 0x4b) {
    throw new ForeignFileError("This is a compressed file (.mxl). Save it as uncompressed MusicXML.");
  }
  const wide =
    first === 0xff && second === 0xfe
      ? "utf-16le"
      : first === 0xfe && second === 0xff
        ? "utf-16be"
        : undefined;
  return new TextDecoder(wide ?? "utf-8").decode(bytes);
}
