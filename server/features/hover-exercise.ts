import { homePlacement, placementName } from "../days/placement";
import { midiOf, pitchSign } from "../music/pitch";
import { toNumber, valueName, valuesName } from "../music/rhythm";
import { named } from "../output/explained-exercise";
import { clockText, plainNumber, secondsText } from "../output/numbers";
import type { Exercise } from "../plan/exercise";
import type { Plan } from "../plan/plan";
import type { Player } from "../plan/player";
import { lasting, type Profile, upperOf } from "../profile/profile";
import { instrumentOf, profileFor } from "./exercise-reach";
import type { ShownText } from "./shown-text";

/** Players whose upper register is told of one by one. */
const MOST_PLAYERS = 3;

/** What is worth knowing of an exercise: where it belongs, how far it reaches, how long it lasts, what it is for. */
export function exerciseText(plan: Plan, exercise: Exercise, players: readonly Player[]): ShownText[] {
  const profile = profileFor(plan, exercise, players);
  const home = homePlacement(exercise, instrumentOf(players));
  const key = placementName(home);
  const lines = [[exercise.area, key].filter((each) => each !== "").join(", ")];
  const { low, high } = profile;
  if (low !== undefined && high !== undefined) {
    lines.push(`${named(low, home)} to ${named(high, home)}, written`);
  }
  lines.push(...durationLines(exercise, profile));
  for (const player of differing(players).slice(0, MOST_PLAYERS)) {
    const line = player.figures.upperFrom?.value;
    if (line === undefined || low === undefined) continue;
    const upper = upperOf(profile, midiOf(line), 0, wholeSecondsOf(exercise));
    lines.push(`upper ${clockText(upper)}, from ${pitchSign(line)} up, for ${player.name}`);
  }
  for (const aim of exercise.aims) lines.push(`aim: ${aim}`);
  return [{ heading: exercise.name, lines }];
}

/** Seconds a whole note lasts at the exercise's own tempo; 0 where nothing is counted. */
function wholeSecondsOf({ tempo }: Exercise): number {
  return tempo === undefined ? 0 : 60 / (tempo.bpm * toNumber(tempo.beat));
}

/** How long one time through lasts, with the sum behind it. */
function durationLines(exercise: Exercise, profile: Profile): readonly string[] {
  const { tempo, rest } = exercise;
  const wholeSeconds = wholeSecondsOf(exercise);
  const playing = lasting(profile.playing, wholeSeconds);
  const resting = lasting(profile.resting, wholeSeconds);
  const through = `${clockText(playing + resting)} once through`;
  const lines: string[] = [];
  if (tempo === undefined) lines.push(through);
  else {
    const beats = (profile.playing.whole + profile.resting.whole) / toNumber(tempo.beat);
    const fixed = profile.playing.seconds + profile.resting.seconds;
    const seconds = fixed === 0 ? "" : ` + ${secondsText(fixed)}`;
    const sum = `${plainNumber(beats)} ${valuesName(tempo.beat)} × 60 ÷ ${plainNumber(tempo.bpm)}${seconds}`;
    lines.push(`${through} at ${valueName(tempo.beat)} = ${plainNumber(tempo.bpm)}: ${sum}`);
  }
  if (resting > 0 && playing > 0)
    lines.push(`playing ${clockText(playing)}, rests in it ${clockText(resting)}`);
  if (rest.kind === "equal") lines.push("then as long a rest as was played");
  else if (rest.kind === "time") lines.push(`then ${secondsText(rest.seconds)} of rest`);
  return lines;
}

/** Of players with the same upper line the first speaks for all. */
function differing(players: readonly Player[]): readonly Player[] {
  const seen = new Set<number>();
  return players.filter(({ figures: { upperFrom } }) => {
    if (upperFrom === undefined || seen.has(midiOf(upperFrom.value))) return false;
    seen.add(midiOf(upperFrom.value));
    return true;
  });
}
