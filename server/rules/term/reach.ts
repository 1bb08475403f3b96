import type { DayItem } from "../../days/day";
import { keyName, tonicAt } from "../../music/key";
import { midiOf, pitchFromMidi, pitchSign, spokenPitch } from "../../music/pitch";
import type { PitchRange } from "../../plan/player";
import { placed, prefersFlats } from "../contributions";
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
  const inner = edgesOf(range);
  const outer = wider === undefined ? undefined : edgesOf(wider);
  for (const item of view.days.items) {
    const { low, high } = item.profile;
    if (low === undefined || high === undefined) continue;
    for (let index = 0; index < item.passes.length; index++) {
      const { semitones } = item.passes[index]!.placement;
      const out = outside(low + semitones, high + semitones, inner);
      if (out === undefined) continue;
      if (outer !== undefined && outside(low + semitones, high + semitones, outer) !== undefined) continue;
      const said = message(item, index, out, range, what);
      // Too high and too low are two matters, and so are two players' limits.
      const apart = `${out} ${inner.low} ${inner.high}`;
      for (const date of view.datesOf(item)) {
        report({ place: item.assignment.place, message: said, related: related ?? [], date, apart });
      }
      break;
    }
  }
}

interface Edges {
  readonly low: number;
  readonly high: number;
}

function edgesOf(range: PitchRange): Edges {
  return { low: midiOf(range.low), high: midiOf(range.high) };
}

function outside(low: number, high: number, edges: Edges): "high" | "low" | undefined {
  if (high > edges.high) return "high";
  return low < edges.low ? "low" : undefined;
}

function message(item: DayItem, index: number, out: "high" | "low", range: PitchRange, what: string): string {
  const { placement } = item.passes[index]!;
  const midi = (out === "high" ? item.profile.high! : item.profile.low!) + placement.semitones;
  const pitch = pitchFromMidi(midi, prefersFlats(placement));
  const edge = out === "high" ? range.high : range.low;
  // A cell of a series has no key of its own that a player would name.
  const where = item.exercise.series === undefined ? placed(placement) : `in its ${ordinal(index + 1)} cell`;
  const start = `${quoted(item.exercise.name)}${where === "" ? "" : ` ${where}`} goes ${out === "high" ? "up" : "down"} to ${pitchSign(pitch)}${spoken(pitch)}, ${out === "high" ? "above" : "below"} ${what}, ${pitchSign(edge)}.`;
  // A series goes on to other keys in one playing; no single key can be named for it.
  const keys = item.exercise.series === undefined ? fittingKeys(item, range) : undefined;
  if (keys === undefined) return start;
  return keys.length === 0 ? `${start} It fits in no key.` : `${start} It fits in ${list(keys, 12)}.`;
}

function ordinal(n: number): string {
  const teen = n % 100 > 10 && n % 100 < 14;
  const ending = teen ? "th" : (["th", "st", "nd", "rd"][n % 10] ?? "th");
  return `${n}${ending}`;
}

function spoken(pitch: ReturnType<typeof pitchFromMidi>): string {
  const words = spokenPitch(pitch);
  return words === pitchSign(pitch) ? "" : ` (${words})`;
}

/** Keys near home in which all notes lie in the range; undefined for what has no key. */
function fittingKeys(item: DayItem, range: PitchRange): readonly string[] | undefined {
  const { content } = item.exercise;
  if (content.kind !== "notes" || content.key === undefined) return undefined;
  const { low, high } = item.profile;
  if (low === undefined || high === undefined) return undefined;
  const edges = edgesOf(range);
  const keys: string[] = [];
  for (let semitones = 1 - NEAR; semitones <= NEAR; semitones++) {
    if (outside(low + semitones, high + semitones, edges) === undefined) {
      keys.push(keyName(tonicAt(content.key, semitones)).replace(" major", ""));
    }
  }
  return keys;
}
