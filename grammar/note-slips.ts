/** Notes and keys in the ways that people write them who have learnt other ways. */

/** What is wrong with a word that should be a note or a key, and what it should be. */
export interface NoteSlip {
  /** Slips of one kind that stand side by side are told about once. */
  readonly kind: string;
  readonly message: string;
  readonly mend: string | undefined;
}

const SOLFEGE = /^(?:do|re|ré|mi|fa|sol|so|la|si|ti)\d?$/i;
const SUFFIXES: ReadonlyMap<string, string> = new Map([
  ["isis", "##"],
  ["eses", "bb"],
  ["is", "#"],
  ["es", "b"],
  ["s", "b"],
]);

/** A German name (`H`, `fis`, `es`) as ours, without its octave. */
function germanName(name: string): string | undefined {
  const [, letter = "", suffix = ""] = /^([a-h])(isis|eses|is|es|s|b)?$/i.exec(name) ?? [];
  if (letter === "") return undefined;
  const upper = letter.toUpperCase();
  if (suffix === "b" && upper !== "H") return undefined;
  if (suffix === "s" && upper !== "A" && upper !== "E") return undefined;
  const accidental = suffix === "b" ? "b" : suffix === "" ? "" : SUFFIXES.get(suffix.toLowerCase());
  if (upper === "H") return `B${accidental ?? ""}`;
  return accidental === undefined || accidental === "" ? undefined : `${upper}${accidental}`;
}

/** What is wrong with a word where a note should stand; undefined where it does not look like one. */
export function noteSlip(word: string): NoteSlip | undefined {
  const [, low] = /^([a-g](?:##?|bb?)?\d+)$/.exec(word) ?? [];
  if (low !== undefined) {
    const note = low.charAt(0).toUpperCase() + low.slice(1);
    return { kind: "low", message: `Notes are written with a capital letter: \`${note}\`.`, mend: note };
  }
  if (SOLFEGE.test(word)) {
    return {
      kind: "solfege",
      message: "Notes are written as letters with their octave: `C4` is low C, `C5` third-space C.",
      mend: undefined,
    };
  }
  const [, name = "", octave = ""] = /^([A-Ha-h][a-z]*)(\d+)$/.exec(word) ?? [];
  const german = name === "" ? undefined : germanName(name);
  if (german !== undefined) {
    const note = `${german}${octave}`;
    const message = /^h/i.test(name)
      ? `The note a half step below C is written B: \`${note}\`.`
      : `\`${word}\` is written \`${note}\`.`;
    return { kind: "german", message, mend: note };
  }
  if (/^[A-Ga-g](?:##?|bb?)?$/.test(word)) {
    const letter = word.charAt(0).toUpperCase() + word.slice(1);
    return {
      kind: "octave",
      message: `A note needs its octave: \`${letter}4\`, \`${letter}5\`. \`C4\` is low C, \`C5\` third-space C.`,
      mend: undefined,
    };
  }
  if (/^[Hh]b?$/.test(word)) {
    return { kind: "octave", message: "A note needs its octave, and H is written B: `B4`.", mend: undefined };
  }
  return undefined;
}

/** What is wrong with a word where a key should stand. */
export function keySlip(word: string): NoteSlip | undefined {
  const [, pitch] = /^([A-G](?:##?|bb?)?)\d+$/.exec(word) ?? [];
  if (pitch !== undefined) {
    return { kind: "octave", message: `A key has no octave: \`${pitch}\`.`, mend: pitch };
  }
  if (word === "b") {
    return { kind: "low", message: "A key is written with a capital letter: `B`, or `Bb`.", mend: undefined };
  }
  if (/^[a-g](?:#|b)?$/.test(word)) {
    const key = word.charAt(0).toUpperCase() + word.slice(1);
    return { kind: "low", message: `A key is written with a capital letter: \`${key}\`.`, mend: key };
  }
  const [, tonic, minor] = /^([A-G](?:#|b)?)(maj|major|m|min|minor|dur|moll)$/i.exec(word) ?? [];
  if (tonic !== undefined) {
    const name = tonic.charAt(0).toUpperCase() + tonic.slice(1);
    const key = `${name} ${/^(?:m|min|minor|moll)$/i.test(minor ?? "") ? "minor" : "major"}`;
    return { kind: "joined", message: `\`${word}\` is written \`${key}\`.`, mend: key };
  }
  const german = /^[A-Ha-h][a-z]*$/.test(word) ? germanName(word) : undefined;
  if (german !== undefined) {
    const message = /^h$/i.test(word)
      ? "The key a half step below C is written `B`."
      : `\`${word}\` is written \`${german}\`.`;
    return { kind: "german", message, mend: german };
  }
  return undefined;
}
