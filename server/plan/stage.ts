import type { StageWord } from "../../grammar/tree";
import { type Pitch, parsePitch } from "../music/pitch";
import { notesPerSecond } from "../music/rhythm";
import type { PlayerFigures, Stated } from "./player";

interface StageRow {
  readonly range: readonly [string, string];
  readonly limit: readonly [string, string];
  readonly upper: string;
  /** Seconds. */
  readonly breath: number;
  /** Sixteenths at so many quarters to the minute. */
  readonly single: number;
  readonly double?: number;
  /** Minutes. */
  readonly clock: number;
  readonly playing: number;
  readonly upperMinutes: number;
  readonly stretch: number;
  readonly days: number;
}

/** Starting budgets: common practice without a source, a place to start from. */
export const STAGES: Readonly<Record<StageWord, StageRow>> = {
  "first year": {
    range: ["C4", "A4"],
    limit: ["Bb3", "D5"],
    upper: "B4",
    breath: 5,
    single: 45,
    clock: 15,
    playing: 9,
    upperMinutes: 1,
    stretch: 1,
    days: 5,
  },
  "years 2 to 3": {
    range: ["A3", "E5"],
    limit: ["G3", "G5"],
    upper: "D5",
    breath: 8,
    single: 75,
    clock: 25,
    playing: 15,
    upperMinutes: 2,
    stretch: 2,
    days: 5,
  },
  senior: {
    range: ["G3", "A5"],
    limit: ["F#3", "C6"],
    upper: "F5",
    breath: 10,
    single: 105,
    clock: 45,
    playing: 28,
    upperMinutes: 5,
    stretch: 4,
    days: 6,
  },
  college: {
    range: ["F#3", "C6"],
    limit: ["F#3", "D6"],
    upper: "G5",
    breath: 12,
    single: 120,
    double: 165,
    clock: 90,
    playing: 60,
    upperMinutes: 8,
    stretch: 6,
    days: 6,
  },
};

const cache = new Map<StageWord, PlayerFigures>();

/** A stage's figures, in the units of a player. */
export function stageFigures(stage: StageWord): PlayerFigures {
  const known = cache.get(stage);
  if (known !== undefined) return known;
  const row = STAGES[stage];
  const figures: PlayerFigures = {
    stage: plain(stage),
    range: plain({ low: pitch(row.range[0]), high: pitch(row.range[1]) }),
    limit: plain({ low: pitch(row.limit[0]), high: pitch(row.limit[1]) }),
    upperFrom: plain(pitch(row.upper)),
    breath: plain(row.breath),
    single: plain(sixteenths(row.single)),
    ...(row.double === undefined ? {} : { double: plain(sixteenths(row.double)) }),
    dayClock: plain(row.clock * 60),
    dayPlaying: plain(row.playing * 60),
    dayUpper: plain(row.upperMinutes * 60),
    dayStretch: plain(row.stretch * 60),
    weekDays: plain(row.days),
  };
  cache.set(stage, figures);
  return figures;
}

function plain<T>(value: T): Stated<T> {
  return { value, place: undefined };
}

function pitch(text: string): Pitch {
  return parsePitch(text) as Pitch;
}

function sixteenths(bpm: number): number {
  return notesPerSecond({ num: 1, den: 16 }, { num: 1, den: 4 }, bpm);
}
