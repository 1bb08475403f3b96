import type { Instrument } from "../music/instrument";
import { type Key, keyName } from "../music/key";
import { type Pitch, pitchSign } from "../music/pitch";
import type { PitchRange, Player, PlayerFigures, Stated } from "../plan/player";
import { list, minutes, shortTime } from "../rules/words";
import { changedLines } from "./changed-lines";
import type { PlayerChanges } from "./comparison";

type Players = ReadonlyMap<string, Player>;

/** Players who came and went, and whose figures are others now. Players are known by their names. */
export function playerChanges(before: Players, after: Players): PlayerChanges {
  const common = [...before.values()].filter((each) => after.has(each.name));
  return {
    added: [...after.keys()].filter((name) => !before.has(name)).sort(),
    dropped: [...before.keys()].filter((name) => !after.has(name)).sort(),
    changed: common
      .map((each) => ({
        player: each.name,
        figures: changedLines(figureLines(each.figures), figureLines(after.get(each.name)!.figures)),
      }))
      .filter((each) => each.figures.length > 0)
      .sort((a, b) => (a.player < b.player ? -1 : 1)),
  };
}

/** The figures of a player as a teacher reads them. */
function figureLines(figures: PlayerFigures): ReadonlyMap<string, string> {
  const lines = new Map<string, string>();
  const say = <T>(what: string, stated: Stated<T> | undefined, text: (value: T) => string): void => {
    if (stated !== undefined) lines.set(what, text(stated.value));
  };
  const range = ({ low, high }: PitchRange): string => `${pitchSign(low)} to ${pitchSign(high)}`;
  const atMost = (seconds: number): string => minutes(seconds);
  const points = (load: number): string => `${Math.round(load)} points`;
  const notes = (perSecond: number): string => `sixteenths at ${Math.round(perSecond * 15)}`;
  say("instrument", figures.instrument, (instrument: Instrument) => instrument.name);
  say("stage", figures.stage, (stage) => stage);
  say("range", figures.range, range);
  say("limit", figures.limit, range);
  say("upper from", figures.upperFrom, (pitch: Pitch) => pitchSign(pitch));
  say("breath", figures.breath, shortTime);
  say("single tongue", figures.single, notes);
  say("double tongue", figures.double, notes);
  say("triple tongue", figures.triple, notes);
  say("keys", figures.keys, (keys: readonly Key[]) => list(keys.map(keyName), keys.length));
  say("clock a day", figures.dayClock, atMost);
  say("playing a day", figures.dayPlaying, atMost);
  say("upper a day", figures.dayUpper, atMost);
  say("stretch", figures.dayStretch, atMost);
  say("load a day", figures.dayLoad, points);
  say("clock a week", figures.weekClock, atMost);
  say("playing a week", figures.weekPlaying, atMost);
  say("upper a week", figures.weekUpper, atMost);
  say("load a week", figures.weekLoad, points);
  say("increase a week", figures.weekIncrease, (share) => `${Math.round(share * 100)} %`);
  say("days a week", figures.weekDays, String);
  return lines;
}
