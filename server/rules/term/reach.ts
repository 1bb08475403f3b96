import type { DayItem } from "../../days/day";
import { placementName } from "../../days/placement";
import { keyName, tonicAt } from "../../music/key";
import { midiOf, pitchFromMidi, pitchSign, spokenPitch } from "../../music/pitch";
import type { PitchRange } from "../../plan/player";
import type { Raw, Report, TermView } from "../rule";
import { list, quoted } from "../words";

/** Half steps a fitting key is looked for in, to either side of home. */
const NEAR = 6;

/**
 * Reports every assignment with a note outside a range, naming the keys in which the exercise fits. `wider` is
 * a range whose own rule already speaks of notes beyond it.
 */
export function reportReach(
  view: TermView,
  range: PitchRange,
  wider: PitchRange | undefined,
  what: string,
  related: Raw["related"],
  report: Report,
): void {
  for (const day of view.days.days) {
    for (const session of day.sessions) {
      for (const item of session.items) {
        for (const pass of item.passes) {
          const out = outside(item, pass.placement.semitones, range);
          if (out === undefined) continue;
          if (wider !== undefined && outside(item, pass.placement.semitones, wider) !== undefined) continue;
          report({
            place: item.assignment.place,
            message: message(item, pass.placement.semitones, placementName(pass.placement), out, range, what),
            related: related ?? [],
            date: day.date,
          });
          break;
        }
      }
    }
  }
}

function outside(item: DayItem, semitones: number, range: PitchRange): "high" | "low" | undefined {
  const { high, low } = item.profile;
  if (high === undefined || low === undefined) return undefined;
  if (high + semitones > midiOf(range.high)) return "high";
  return low + semitones < midiOf(range.low) ? "low" : undefined;
}

function message(
  item: DayItem,
  semitones: number,
  place: string,
  out: "high" | "low",
  range: PitchRange,
  what: string,
): string {
  const midi = (out === "high" ? item.profile.high! : item.profile.low!) + semitones;
  const flats = !place.includes("♯");
  const pitch = pitchFromMidi(midi, flats);
  const edge = out === "high" ? range.high : range.low;
  const where = place === "" ? "" : ` in ${place}`;
  const start = `${quoted(item.exercise.name)}${where} goes ${out === "high" ? "up" : "down"} to ${pitchSign(pitch)}${spoken(pitch)}, ${out === "high" ? "above" : "below"} ${what}, ${pitchSign(edge)}.`;
  const keys = fittingKeys(item, range);
  if (keys === undefined) return start;
  return keys.length === 0 ? `${start} It fits in no key.` : `${start} It fits in ${list(keys, 12)}.`;
}

function spoken(pitch: ReturnType<typeof pitchFromMidi>): string {
  const words = spokenPitch(pitch);
  return words === pitchSign(pitch) ? "" : ` (${words})`;
}

/** Keys near home in which all notes lie in the range; undefined for what has no key. */
function fittingKeys(item: DayItem, range: PitchRange): readonly string[] | undefined {
  const { content } = item.exercise;
  if (content.kind !== "notes" || content.key === undefined) return undefined;
  const keys: string[] = [];
  for (let semitones = 1 - NEAR; semitones <= NEAR; semitones++) {
    if (outside(item, semitones, range) === undefined) {
      keys.push(keyName(tonicAt(content.key, semitones)).replace(" major", ""));
    }
  }
  return keys;
}
