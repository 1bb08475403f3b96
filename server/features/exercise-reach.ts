import { homePlacement, movedPlacement, type Placement } from "../days/placement";
import { findInstrument, type Instrument } from "../music/instrument";
import { midiOf } from "../music/pitch";
import type { Exercise } from "../plan/exercise";
import type { Plan } from "../plan/plan";
import type { PitchRange, Player } from "../plan/player";
import { type Profile, profileOf } from "../profile/profile";
import type { Checked, CheckedFile } from "../workspace/check-sources";

/** How an exercise in one place lies for those who play it. */
export type Lying = "comfortable" | "within the limit" | "too far";

/**
 * The levels that meet what is written in a file: its own and those it uses, or else, as for a book of exercises,
 * those of the first file that uses it and has some.
 */
export function levelsAround(checked: Checked, file: CheckedFile): readonly Player[] {
  const plan = planWithLevels(checked, file);
  return plan === undefined ? [] : levelsOf(plan);
}

/** The same levels, and after them the students beside them. */
export function everyoneAround(checked: Checked, file: CheckedFile): readonly Player[] {
  const plan = planWithLevels(checked, file);
  if (plan === undefined) return [];
  return [...levelsOf(plan), ...[...plan.players.values()].filter((player) => player.kind === "student")];
}

function planWithLevels(checked: Checked, file: CheckedFile): Plan | undefined {
  if (levelsOf(file.plan).length > 0) return file.plan;
  for (const other of checked.files) {
    if (!other.ground.used.includes(file.tree.pieces)) continue;
    // The files of a studio mostly share their levels, and each plan that is asked for may have to be read.
    if (levelsOf(other.plan).length > 0) return other.plan;
  }
  return undefined;
}

function levelsOf(plan: Plan): readonly Player[] {
  return [...plan.players.values()].filter((player) => player.kind === "level");
}

/** The usual instrument, where nobody says another. */
export function instrumentOf(players: readonly Player[]): Instrument {
  const instrument = players[0]?.instrument ?? findInstrument("trumpet");
  if (instrument === undefined) throw new Error("the trumpet is missing from the instruments");
  return instrument;
}

/** The profile of an exercise as the first of these players reads it. */
export function profileFor(plan: Plan, exercise: Exercise, players: readonly Player[]): Profile {
  return profileOf({ exercise, instrument: instrumentOf(players), settings: plan.settings });
}

/** How notes from `low` to `high` (written MIDI numbers) lie for the player they suit least, and who that is. */
export function lyingFor(
  low: number,
  high: number,
  players: readonly Player[],
): { readonly lies: Lying; readonly player: Player | undefined } {
  let worst: { lies: Lying; player: Player | undefined } = { lies: "comfortable", player: undefined };
  for (const player of players) {
    const { range, limit } = player.figures;
    if (limit !== undefined && !within(low, high, limit.value)) return { lies: "too far", player };
    if (range !== undefined && !within(low, high, range.value) && worst.lies === "comfortable") {
      worst = { lies: "within the limit", player };
    }
  }
  return worst;
}

function within(low: number, high: number, range: PitchRange): boolean {
  return low >= midiOf(range.low) && high <= midiOf(range.high);
}

/** Half steps a key is offered in, to either side of home: −5 to 6, as far as a key named alone can lie. */
const LOWEST = -5;
const HIGHEST = 6;

/** The twelve keys around an exercise's home, home first, then the near ones before the far. */
export function keysAround(exercise: Exercise, instrument: Instrument): readonly Placement[] {
  const home = homePlacement(exercise, instrument);
  if (home.key === undefined) return [];
  const placements: Placement[] = [];
  for (let by = LOWEST; by <= HIGHEST; by++) placements.push(movedPlacement(home, by));
  return placements.sort((a, b) => distance(a) - distance(b) || b.semitones - a.semitones);
}

function distance({ semitones }: Placement): number {
  return Math.abs(semitones);
}
