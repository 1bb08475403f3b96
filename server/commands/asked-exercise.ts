/** The exercise, players and key that the words of a verb mean; what cannot be found is misuse, with the nearest. */
import { homePlacement, nearestShift, type Placement } from "../days/placement";
import { findInstrument, type Instrument } from "../music/instrument";
import { keyName, parseMode, parseTonic } from "../music/key";
import type { Exercise } from "../plan/exercise";
import { nearest } from "../plan/nearest";
import type { Plan } from "../plan/plan";
import type { Player } from "../plan/player";
import type { Checked } from "../workspace/check-sources";
import { Misuse } from "./world";

/** Beyond so many players only the levels are shown, unless one is asked for. */
const MOST_PLAYERS = 8;

/** The exercise of this name, and the plan of the file that declares it. */
export function findExercise({ files }: Checked, name: string): { exercise: Exercise; plan: Plan } {
  const names = new Set<string>();
  for (const { plan } of files) {
    for (const exercise of plan.own.exercises) {
      if (exercise.name === name) return { exercise, plan };
      names.add(exercise.name);
    }
  }
  const near = nearest(name, names);
  throw new Misuse(
    `There is no exercise “${name}” in these files.${near === undefined ? "" : ` Did you mean “${near}”?`}`,
  );
}

/** The player of this name; without a name all players, or their levels where they are many. */
export function findPlayers({ files }: Checked, wanted: string | undefined): readonly Player[] {
  const players = new Map<string, Player>();
  for (const { plan } of files) for (const player of plan.own.players) players.set(player.name, player);
  if (wanted === undefined) {
    const all = [...players.values()];
    return all.length > MOST_PLAYERS ? all.filter((each) => each.kind === "level") : all;
  }
  const player = players.get(wanted);
  if (player !== undefined) return [player];
  const near = nearest(wanted, players.keys());
  throw new Misuse(
    `There is no player “${wanted}” in these files.${near === undefined ? "" : ` Did you mean “${near}”?`}`,
  );
}

/** The instrument of the first of the players; the usual trumpet where there is none. */
export function instrumentOf(players: readonly Player[]): Instrument {
  return players[0]?.instrument ?? (findInstrument("trumpet") as Instrument);
}

/** The exercise's home, or the key asked for on the command line, as near home as can be. */
export function placementOf(
  exercise: Exercise,
  instrument: Instrument,
  asked: string | undefined,
): Placement {
  const home = homePlacement(exercise, instrument);
  if (asked === undefined) return home;
  const { content } = exercise;
  if (content.kind !== "notes" || content.key === undefined) {
    throw new Misuse(`“${exercise.name}” has no key to move it to.`);
  }
  const [tonicText = "", ...modeWords] = asked.trim().split(/\s+/);
  const tonic = parseTonic(tonicText);
  const mode = modeWords.length === 0 ? content.key.mode : parseMode(modeWords.join(" ").toLowerCase());
  if (tonic === undefined || mode === undefined) {
    throw new Misuse(`“${asked}” is not a key. Write it like G, Bb or "A minor".`);
  }
  const key = { ...tonic, mode };
  if (mode !== content.key.mode && content.by === "pitches") {
    throw new Misuse(
      `“${exercise.name}” is written in notes of ${keyName(content.key)}; only music by degrees can change its mode.`,
    );
  }
  return {
    semitones: nearestShift(content.key, key),
    key,
    combination: undefined,
    mode: mode === content.key.mode ? undefined : mode,
  };
}
