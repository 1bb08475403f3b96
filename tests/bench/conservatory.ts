import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { bookText, playersText, studioText, termsText } from "./practice-text";
import { type StudioSize, studioOf } from "./studio";

/** A conservatory as a folder would hold it: the house, a shared book, the players, a file of terms per group. */
export function conservatoryFiles(size: StudioSize): ReadonlyMap<string, string> {
  const studio = studioOf(size);
  const files = new Map([
    ["studio.practice", studioText(studio)],
    ["book.practice", bookText(studio)],
    ["players.practice", playersText(studio)],
  ]);
  const groups = new Map<string, typeof studio.terms>();
  for (const term of studio.terms) {
    const who = term.students.join(", ");
    groups.set(who, [...(groups.get(who) ?? []), term]);
  }
  for (const terms of groups.values()) {
    const who = terms[0]!.name.split(", ")[1]!.toLowerCase().replace(" ", "-");
    const uses = 'use "../book.practice"\nuse "../players.practice"\n\n';
    files.set(`terms/${who}.practice`, `${uses}${termsText(terms)}`);
  }
  return files;
}

export function writeConservatory(folder: string, size: StudioSize): void {
  mkdirSync(join(folder, "terms"), { recursive: true });
  for (const [path, text] of conservatoryFiles(size)) writeFileSync(join(folder, path), text);
}
