import type { Instrument } from "../music/instrument";
import type { Mode } from "../music/key";
import { midiOf } from "../music/pitch";
import type { Exercise } from "../plan/exercise";
import type { Player } from "../plan/player";
import type { Settings } from "../plan/settings";
import type { Assignment } from "../plan/term";
import { type Profile, profileAsItStands, profileOf, upperOf } from "../profile/profile";
import type { DayItem } from "./day";

/** What a player's work is measured by. */
export interface Measure {
  readonly settings: Settings;
  readonly instrument: Instrument;
  /** Written MIDI number from which the upper register counts. */
  readonly upperLine: number;
}

export function measureOf(settings: Settings, { instrument, figures }: Player): Measure {
  const { upperFrom } = figures;
  // Without an upper line nothing is upper: 128 lies above every note.
  return { settings, instrument, upperLine: upperFrom === undefined ? 128 : midiOf(upperFrom.value) };
}

/** The profile of what an assignment asks for, in another mode than the home key's where one is given. */
export function profileFor(
  { articulation, dynamic }: Assignment,
  exercise: Exercise,
  mode: Mode | undefined,
  { instrument, settings }: Measure,
): Profile {
  if (articulation === undefined && dynamic === undefined && mode === undefined) {
    return profileAsItStands(exercise, instrument, settings);
  }
  return profileOf({ exercise, instrument, settings, articulation, dynamic, mode });
}

/** Seconds of an item that lie in the upper register. */
export function upperSeconds(
  item: Pick<DayItem, "assignment" | "exercise" | "profile" | "passes" | "wholeSeconds">,
  measure: Measure,
): number {
  const { assignment, exercise, profile, passes, wholeSeconds } = item;
  const first = passes[0]?.placement.mode;
  let upper = 0;
  for (const { placement, times } of passes) {
    const { mode, semitones } = placement;
    // Keys of another mode have notes of their own.
    const here = mode === first ? profile : profileFor(assignment, exercise, mode, measure);
    upper += times * upperOf(here, measure.upperLine, semitones, wholeSeconds);
  }
  return upper;
}
