import { homePlacement, type Placement } from "../days/placement";
import type { Instrument } from "../music/instrument";
import { keyText, parseMode, parseTonic } from "../music/key";
import type { Exercise } from "../plan/exercise";

/** Half steps from home that a placement may lie: two octaves and a half, as far as a walk leads at most. */
const FARTHEST = 30;

/** A placement as text, for a page to hand back: half steps, key and combination. */
export function placementId({ semitones, key, combination, mode }: Placement): string {
  return [semitones, key === undefined ? "" : keyText(key), combination?.name ?? "", mode ?? ""].join("/");
}

/** The placement a text stands for; undefined where it stands for none of this exercise on this instrument. */
export function placementFrom(id: string, exercise: Exercise, instrument: Instrument): Placement | undefined {
  const [half = "", keyWords = "", name = "", modeWord = ""] = id.split("/");
  const semitones = Number(half);
  if (half === "" || !Number.isInteger(semitones) || Math.abs(semitones) > FARTHEST) return undefined;
  const home = homePlacement(exercise, instrument);
  if (home.combination !== undefined) {
    const combination = instrument.combinations.find((each) => each.name === name);
    return combination === undefined ? undefined : { ...home, combination, semitones };
  }
  if (home.key === undefined) return undefined;
  const [tonicText = "", ...words] = keyWords.split(" ");
  const tonic = parseTonic(tonicText);
  const mode = parseMode(words.join(" "));
  if (tonic === undefined || mode === undefined) return undefined;
  // Written notes cannot change their mode; degrees can.
  const other = modeWord === "" ? undefined : parseMode(modeWord);
  const { content } = exercise;
  if (other !== undefined && (content.kind !== "notes" || content.by !== "degrees")) return undefined;
  return { semitones, key: { ...tonic, mode }, combination: undefined, mode: other };
}
