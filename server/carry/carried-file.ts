import type { SourceTree } from "../../grammar/piece";
import { printDeclaration } from "../../grammar/print";
import type { Term } from "../plan/term";
import { type CarryAsk, carriedTerm, type LeftOut } from "./carried-term";

/** The text of a new file, and what of each term it does not have. */
export interface CarriedFile {
  readonly text: string;
  readonly terms: readonly { readonly name: string; readonly leftOut: readonly LeftOut[] }[];
}

/**
 * A new file of terms carried over from a file. It uses what the old file uses; where the old file declares
 * exercises or players itself, it uses the old file. `pathOf` gives a path as the new file must write it.
 */
export function carriedFile(
  old: SourceTree,
  terms: readonly { readonly term: Term; readonly ask: CarryAsk }[],
  paths: { readonly used: (written: string) => string; readonly old: string },
): CarriedFile {
  const lines: string[] = [];
  const declared = old.pieces.flatMap(({ declaration }) => declaration ?? []);
  const ownThings = declared.some(({ kind }) => kind !== "use" && kind !== "term" && kind !== "record");
  const names = ownThings
    ? [paths.old]
    : declared.flatMap((each) => (each.kind === "use" ? [paths.used(each.path.text)] : []));
  for (const name of names) lines.push(`use "${name}"\n`);
  const carried = terms.map(({ term, ask }) => carriedTerm(term, ask));
  for (const { declaration } of carried) {
    const { trivia } = declaration;
    // A comment above a term was written of the old one.
    lines.push(`\n${printDeclaration({ ...declaration, trivia: { ...trivia, before: [], blank: false } })}`);
  }
  return {
    text: lines.join("").replace(/^\n/, ""),
    terms: carried.map(({ declaration, leftOut }) => ({ name: declaration.name.text, leftOut })),
  };
}

/** A name with its years moved on: “Autumn 2025-26” of a term a year later is “Autumn 2026-27”. */
export function yearsLater(name: string, years: number): string {
  return name.replace(
    /\b((?:19|20|21)\d\d)(?:(\s*[-–/]\s*)(\d{4}|\d{2})(?!\d))?/g,
    (_, from: string, joint?: string, to?: string) => {
      const later = (text: string): string =>
        String((Number(text) + years) % 10 ** text.length).padStart(text.length, "0");
      return joint === undefined || to === undefined ? later(from) : `${later(from)}${joint}${later(to)}`;
    },
  );
}
