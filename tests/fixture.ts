/**
 * Texts as pictures: a test draws the cursor and the ranges it means into the source itself, and may hold
 * several files in one string.
 *
 *     --- book.practice
 *     exercise "Slow fifths" {
 *       tempo 1/4 ⟦72⟧‸
 *     }
 *
 * `⟦ ⟧` is a range, `‸` the cursor; a line `--- path` begins a file. Without such a line the whole text is
 * one file, `plan.practice`.
 */

/** One file of a fixture, with the marks taken out of its text. */
export interface FixtureFile {
  readonly path: string;
  readonly text: string;
  /** Where `‸` stood, if it did. */
  readonly cursor: number | undefined;
  /** What stood between `⟦` and `⟧`, in the order of their beginnings. */
  readonly ranges: readonly { readonly start: number; readonly end: number }[];
}

const HEADING = /^--- (\S.*)$/;

/** Reads a fixture. Throws where a mark is drawn wrongly, so that no test passes by a slip of the pen. */
export function fixture(picture: string): readonly FixtureFile[] {
  const lines = picture.split("\n");
  if (!lines.some((line) => HEADING.test(line))) return [unmark("plan.practice", picture)];
  const files: { path: string; lines: string[] }[] = [];
  for (const line of lines) {
    const path = HEADING.exec(line)?.[1];
    if (path !== undefined) files.push({ path, lines: [] });
    else if (files.length > 0) files.at(-1)!.lines.push(line);
    else if (line.trim() !== "") throw new Error("text above the first heading belongs to no file");
  }
  return files.map((file) => unmark(file.path, file.lines.join("\n")));
}

/** The one file of a fixture. */
export function oneFile(picture: string): FixtureFile {
  const [file, ...others] = fixture(picture);
  if (file === undefined || others.length > 0) throw new Error("one file was expected in this fixture");
  return file;
}

function unmark(path: string, picture: string): FixtureFile {
  let text = "";
  let cursor: number | undefined;
  const open: number[] = [];
  const ranges: { start: number; end: number }[] = [];
  for (const letter of picture) {
    if (letter === "⟦") open.push(text.length);
    else if (letter === "⟧") {
      const start = open.pop();
      if (start === undefined) throw new Error(`${path}: a ⟧ without its ⟦`);
      ranges.push({ start, end: text.length });
    } else if (letter === "‸") {
      if (cursor !== undefined) throw new Error(`${path}: two cursors`);
      cursor = text.length;
    } else text += letter;
  }
  if (open.length > 0) throw new Error(`${path}: a ⟦ without its ⟧`);
  ranges.sort((a, b) => a.start - b.start || b.end - a.end);
  return { path, text, cursor, ranges };
}

/** A text with these ranges drawn into it, for messages that a person reads. */
export function drawn(
  text: string,
  ranges: readonly { readonly start: number; readonly end: number }[],
): string {
  const marks = ranges.flatMap(({ start, end }) => [
    { at: start, mark: "⟦" },
    { at: end, mark: "⟧" },
  ]);
  marks.sort((a, b) => b.at - a.at || (a.mark === "⟦" ? -1 : 1));
  return marks.reduce((out, { at, mark }) => `${out.slice(0, at)}${mark}${out.slice(at)}`, text);
}
