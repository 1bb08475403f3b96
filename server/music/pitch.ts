/**
 * A written pitch: which line or space of the staff it sits on, its accidental, and how it is said.
 *
 * Octaves are scientific (the octave number changes at C; C4 is the C one ledger line below the treble
 * staff, MIDI 60), because that is how the language spells notes.
 */

/** A pitch as it stands on paper. `step` 0–6 is C–B, `alter` is in half steps (−2…2), `octave` scientific. */
export interface Pitch {
  readonly step: number;
  readonly alter: number;
  readonly octave: number;
}

const LOWEST_SHARED = -1;

/** The pitches of the octaves −1 to 9, each made once: a book comes to them over and over. */
const shared: readonly Pitch[] = Array.from({ length: 11 * 35 }, (_, i) => ({
  step: Math.floor(i / 5) % 7,
  alter: (i % 5) - 2,
  octave: LOWEST_SHARED + Math.floor(i / 35),
}));

/** The pitch of a step, an accidental and an octave. */
function pitchOf(step: number, alter: number, octave: number): Pitch {
  return shared[(octave - LOWEST_SHARED) * 35 + step * 5 + alter + 2] ?? { step, alter, octave };
}

/** Half steps from C up to each step of the octave, C first. */
const STEP_SEMITONES: readonly number[] = [0, 2, 4, 5, 7, 9, 11];

const LETTERS = "CDEFGAB";

/** The steps of the letters from A. */
const STEPS: readonly number[] = [5, 6, 0, 1, 2, 3, 4];

const LETTER_A = "A".charCodeAt(0);
const DIGIT_ZERO = "0".charCodeAt(0);
const NATURAL = "♮".charCodeAt(0);
const SHARP = "#".charCodeAt(0);
const PRINTED_SHARP = "♯".charCodeAt(0);
const FLAT = "b".charCodeAt(0);
const PRINTED_FLAT = "♭".charCodeAt(0);

/** The accidentals in the two ways this project writes them, indexed by `alter + 2`. */
const TYPED_ACCIDENTALS: readonly string[] = ["bb", "b", "", "#", "##"];
const PRINTED_ACCIDENTALS: readonly string[] = ["♭♭", "♭", "", "♯", "♯♯"];

/** The twelve notes spelled with sharps and with flats: step and alter by half steps above C. */
const SHARP_SPELLING: readonly (readonly [step: number, alter: number])[] = [
  [0, 0],
  [0, 1],
  [1, 0],
  [1, 1],
  [2, 0],
  [3, 0],
  [3, 1],
  [4, 0],
  [4, 1],
  [5, 0],
  [5, 1],
  [6, 0],
];
const FLAT_SPELLING: readonly (readonly [step: number, alter: number])[] = [
  [0, 0],
  [1, -1],
  [1, 0],
  [2, -1],
  [2, 0],
  [3, 0],
  [4, -1],
  [4, 0],
  [5, -1],
  [5, 0],
  [6, -1],
  [6, 0],
];

/** `♯` and `♭` are the same as `#` and `b` everywhere in the language. */
export function typedAccidentals(text: string): string {
  return text.replaceAll("♯", "#").replaceAll("♭", "b");
}

/**
 * Half steps meant by a typed accidental: `""`, `♮`, `#`, `##`, `b`, `bb` (or with `♯ ♭`).
 * Undefined for anything else.
 */
export function parseAlter(text: string): number | undefined {
  if (text === "♮") return 0;
  const at = TYPED_ACCIDENTALS.indexOf(typedAccidentals(text));
  return at < 0 ? undefined : at - 2;
}

/** An accidental as typed, `alter` −2…2: `"#"`, `"bb"`, `""` for a natural. */
export function alterText(alter: number): string {
  return TYPED_ACCIDENTALS[alter + 2] ?? "";
}

/** An accidental as printed for people, `alter` −2…2: `"♯"`, `"♭♭"`, `""` for a natural. */
export function alterSign(alter: number): string {
  return PRINTED_ACCIDENTALS[alter + 2] ?? "";
}

/** The letter of a step, 0–6: `"C"` … `"B"`. */
export function stepLetter(step: number): string {
  return LETTERS.charAt(step);
}

/** The step of a capital letter A–G; undefined for anything else. */
export function stepOf(letter: string): number | undefined {
  const step = letter.length === 1 ? LETTERS.indexOf(letter) : -1;
  return step < 0 ? undefined : step;
}

/** Half steps from C up to the natural note on a step 0–6. */
export function stepSemitones(step: number): number {
  return STEP_SEMITONES[step] as number;
}

/**
 * Reads a written pitch: capital letter, accidental, octave −1…9 (`C4`, `F#3`, `B♭5`, `E♮4`, `Gbb4`).
 * Undefined for any other text; there is no pitch without its octave.
 */
export function parsePitch(text: string): Pitch | undefined {
  // Books are full of these; they are read letter by letter, without making a text of each part.
  const step = STEPS[text.charCodeAt(0) - LETTER_A];
  if (step === undefined) return undefined;
  let at = 1;
  let alter = 0;
  if (text.charCodeAt(at) === NATURAL) at++;
  else {
    const up = halfStepOf(text.charCodeAt(at));
    while (up !== 0 && halfStepOf(text.charCodeAt(at)) === up) {
      alter += up;
      at++;
    }
    if (alter > 2 || alter < -2) return undefined;
  }
  const octave = octaveAt(text, at);
  return octave === undefined ? undefined : pitchOf(step, alter, octave);
}

/** What a letter does to a note, in half steps; 0 for any that is no sharp and no flat. */
function halfStepOf(code: number): number {
  if (code === SHARP || code === PRINTED_SHARP) return 1;
  return code === FLAT || code === PRINTED_FLAT ? -1 : 0;
}

/** The octave that is all the rest of a text, −1…9. */
function octaveAt(text: string, at: number): number | undefined {
  const left = text.length - at;
  if (left === 2) return text.endsWith("-1") ? -1 : undefined;
  const octave = left === 1 ? text.charCodeAt(at) - DIGIT_ZERO : -1;
  return octave >= 0 && octave <= 9 ? octave : undefined;
}

/** The MIDI number of a pitch as written, C4 = 60 (equal temperament, so F♯ and G♭ share one). */
export function midiOf(p: Pitch): number {
  return 12 * (p.octave + 1) + (STEP_SEMITONES[p.step] as number) + p.alter;
}

/** The pitch as the language spells it, in ASCII: `F#3`, `Bb5`. `parsePitch` reads it back unchanged. */
export function pitchName(p: Pitch): string {
  return `${stepLetter(p.step)}${alterText(p.alter)}${p.octave}`;
}

/** The pitch as printed for people: `F♯3`, `B♭5`. */
export function pitchSign(p: Pitch): string {
  return `${stepLetter(p.step)}${alterSign(p.alter)}${p.octave}`;
}

/** The note without its octave, for people: `F♯`, `B♭`. */
export function noteSign(p: Pitch): string {
  return stepLetter(p.step) + alterSign(p.alter);
}

/** The number of lines and spaces from C0 up: the octave times seven, plus the step. */
export function staffPosition(p: Pitch): number {
  return p.octave * 7 + p.step;
}

/** A pitch spelled from its MIDI number (a whole number), black keys as flats or as sharps. */
export function pitchFromMidi(midi: number, preferFlats: boolean): Pitch {
  const octave = Math.floor(midi / 12) - 1;
  const [step, alter] = (preferFlats ? FLAT_SPELLING : SHARP_SPELLING)[midi - 12 * (octave + 1)] as readonly [
    number,
    number,
  ];
  return pitchOf(step, alter, octave);
}

/**
 * The pitch on a given line or space (counted as `staffPosition` does) that has a given MIDI number.
 * Where that would take more than a double sharp or double flat it is respelled as the plainest note of
 * the same sound, a sharp if it was too sharp and a flat if it was too flat.
 */
export function pitchOn(position: number, midi: number): Pitch {
  const octave = Math.floor(position / 7);
  const step = position - octave * 7;
  const alter = midi - 12 * (octave + 1) - (STEP_SEMITONES[step] as number);
  if (alter > 2 || alter < -2) return pitchFromMidi(midi, alter < 0);
  return pitchOf(step, alter, octave);
}

/** The staff position (see `staffPosition`) of the first entry of `PLACES`: the F below the ledger-line C. */
const LOWEST_PLACE = 3 * 7 + 3;

/** F♯3 and F6: outside these a trumpet player has no common word, and the sign stands. */
const LOWEST_SPOKEN = 54;
const HIGHEST_SPOKEN = 89;

/** From F3 up, one entry for each line and space; `~` stands for the note. */
const PLACES: readonly string[] = [
  "low ~",
  "low ~",
  "low ~",
  "low ~",
  "low ~",
  "low ~",
  "first-line ~",
  "first-space ~",
  "second-line ~",
  "second-space ~",
  "third-line ~",
  "third-space ~",
  "fourth-line ~",
  "top-space ~",
  "top-line ~",
  "~ on top of the staff",
  "~ above the staff",
  "high ~",
  "high ~",
  "high ~",
  "high ~",
  "high ~",
];

/**
 * The player's words for a written pitch on the treble staff: "low C" (C4), "second-line G" (G4),
 * "third-space C" (C5), "G on top of the staff" (G5), "high C" (C6). Below F♯3 and above F6 the sign
 * ("E3") is returned.
 *
 * The words follow the line or space the note is written on, so an E♯ is still "first-line E♯".
 * Common practice, no source.
 */
export function spokenPitch(p: Pitch): string {
  const midi = midiOf(p);
  const place = PLACES[staffPosition(p) - LOWEST_PLACE];
  if (place === undefined || midi < LOWEST_SPOKEN || midi > HIGHEST_SPOKEN) return pitchSign(p);
  return place.replace("~", noteSign(p));
}
