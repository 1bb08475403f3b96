import { homePlacement, nearestShift, type Placement } from "../days/placement";
import { findInstrument, type Instrument } from "../music/instrument";
import { keyName, parseMode, parseTonic } from "../music/key";
import { explainedExercise } from "../output/explained-exercise";
import { CAUTION } from "../output/totals-text";
import type { Exercise } from "../plan/exercise";
import { nearest } from "../plan/nearest";
import type { Plan } from "../plan/plan";
import type { Player } from "../plan/player";
import type { Checked } from "../workspace/check-sources";
import { readOptions } from "./options";
import { readPlans } from "./read-plans";
import { CLEAN, Misuse, type World } from "./world";

/** Beyond so many players only the levels are shown, unless one is asked for. */
const MOST_PLAYERS = 8;

/** `leadpipe explain`: everything that is known of one exercise, with the sums behind it. */
export async function explain(args: readonly string[], world: World): Promise<number> {
  const { words, values } = readOptions("explain", args, { in: "value", player: "value" });
  const [name, ...paths] = words;
  if (name === undefined) {
    throw new Misuse('Name the exercise, in quotes: leadpipe explain "Slow fifths" samples');
  }
  const checked = await readPlans(paths, world, { findings: false });
  const { exercise, plan } = findExercise(checked, name);
  const players = findPlayers(checked, values.get("player"));
  const instrument = players[0]?.instrument ?? (findInstrument("trumpet") as Instrument);
  const placement = placementOf(exercise, instrument, values.get("in"));
  world.out(
    `${explainedExercise({ exercise, settings: plan.settings, instrument, placement, players })}\n\n${CAUTION}\n`,
  );
  return CLEAN;
}

function findExercise({ files }: Checked, name: string): { exercise: Exercise; plan: Plan } {
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

function findPlayers({ files }: Checked, wanted: string | undefined): readonly Player[] {
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

/** The exercise's home, or the key asked for on the command line, as near home as can be. */
function placementOf(exercise: Exercise, instrument: Instrument, asked: string | undefined): Placement {
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
