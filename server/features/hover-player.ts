import type { Piece } from "../../grammar/piece";
import { keyName } from "../music/key";
import { pitchSign } from "../music/pitch";
import { speed } from "../output/explained-exercise";
import { clockText, secondsText } from "../output/numbers";
import type { PitchRange, Player, PlayerFigures, Stated } from "../plan/player";
import type { ShownText } from "./shown-text";

/** What holds for a player, whether stated, taken over or from the stage, and where it comes from. */
export function playerText(player: Player): readonly ShownText[] {
  const { figures } = player;
  const stage = figures.stage?.value;
  const lines: string[] = [];
  const add = <T>(label: string, figure: Stated<T> | undefined, say: (value: T) => string): void => {
    if (figure === undefined) return;
    lines.push(`${label} ${say(figure.value)}${origin(figure, player.place.piece, player, stage)}`);
  };
  const span = ({ low, high }: PitchRange): string => `${pitchSign(low)} to ${pitchSign(high)}`;
  lines.push(player.instrument.name);
  add("range", figures.range, span);
  add("limit", figures.limit, span);
  add("upper from", figures.upperFrom, pitchSign);
  add("breath", figures.breath, secondsText);
  for (const how of ["single", "double", "triple"] as const) add(`tongue, ${how}:`, figures[how], speed);
  add("keys", figures.keys, (keys) => keys.map((key) => keyName(key).replace(" major", "")).join(", "));
  for (const [label, key] of TIMES) add(label, figures[key], clockText);
  add("load a day", figures.dayLoad, (points) => `${points} points`);
  add("increase a week", figures.weekIncrease, (part) => `${Math.round(part * 100)} %`);
  add("days a week", figures.weekDays, String);
  for (const aim of player.aims) lines.push(`aim: ${aim}`);
  const like = player.likes[0] === undefined ? "" : `, like “${player.likes[0]}”`;
  return [{ heading: `${player.name}: ${player.kind}${like}`, lines }];
}

const TIMES = [
  ["clock a day", "dayClock"],
  ["playing a day", "dayPlaying"],
  ["upper a day", "dayUpper"],
  ["stretch", "dayStretch"],
  ["clock a week", "weekClock"],
  ["playing a week", "weekPlaying"],
  ["upper a week", "weekUpper"],
] as const satisfies readonly (readonly [string, keyof PlayerFigures])[];

/** Where a figure comes from, unless the player states it. */
function origin(
  { place }: Stated<unknown>,
  own: Piece,
  { likes }: Player,
  stage: string | undefined,
): string {
  if (place === undefined) return stage === undefined ? "" : ` (from the stage: ${stage})`;
  if (place.piece === own) return "";
  const declared = place.piece.declaration;
  const name = declared?.kind === "level" || declared?.kind === "student" ? declared.name.text : likes[0];
  return name === undefined ? "" : ` (as “${name}”)`;
}
