import type { Piece } from "../../grammar/piece";
import type { LevelDeclaration, PlayerField, StageWord, StudentDeclaration } from "../../grammar/tree";
import { findInstrument, type Instrument, instrumentNames } from "../music/instrument";
import type { Key } from "../music/key";
import type { Pitch } from "../music/pitch";
import { notesPerSecond } from "../music/rhythm";
import { readPitchRange } from "./exercise";
import { type LetStand, readLet } from "./let-stand";
import type { Place } from "./place";
import { firstSaid, Reader } from "./reader";
import { stageFigures } from "./stage";

export type Quantity = "clock" | "playing" | "upper" | "stretch" | "load";

/** A figure with the place it was stated at; undefined place for one that comes from the stage. */
export interface Stated<T> {
  readonly value: T;
  readonly place: Place | undefined;
}

export interface PitchRange {
  readonly low: Pitch;
  readonly high: Pitch;
}

/** What is known of a player. What is undefined is not checked. */
export interface PlayerFigures {
  readonly instrument?: Stated<Instrument>;
  readonly range?: Stated<PitchRange>;
  readonly limit?: Stated<PitchRange>;
  readonly upperFrom?: Stated<Pitch>;
  /** Seconds at mf. */
  readonly breath?: Stated<number>;
  /** Tongued notes per second. */
  readonly single?: Stated<number>;
  readonly double?: Stated<number>;
  readonly triple?: Stated<number>;
  readonly keys?: Stated<readonly Key[]>;
  readonly stage?: Stated<StageWord>;
  /** Seconds, or points for the load. */
  readonly dayClock?: Stated<number>;
  readonly dayPlaying?: Stated<number>;
  readonly dayUpper?: Stated<number>;
  readonly dayStretch?: Stated<number>;
  readonly dayLoad?: Stated<number>;
  readonly weekClock?: Stated<number>;
  readonly weekPlaying?: Stated<number>;
  readonly weekUpper?: Stated<number>;
  readonly weekLoad?: Stated<number>;
  /** Part of the week before. */
  readonly weekIncrease?: Stated<number>;
  readonly weekDays?: Stated<number>;
}

/** A level or a student. */
export interface Player {
  readonly name: string;
  readonly kind: "level" | "student";
  /** The level or student it is like, then the one that is like, and so on. */
  readonly likes: readonly string[];
  readonly place: Place;
  readonly figures: PlayerFigures;
  readonly instrument: Instrument;
  readonly aims: readonly string[];
  readonly lets: readonly LetStand[];
}

export interface PlayerDraft {
  readonly piece: Piece;
  readonly declaration: LevelDeclaration | StudentDeclaration;
  readonly figures: PlayerFigures;
  readonly aims: readonly string[];
  readonly lets: readonly LetStand[];
  readonly reader: Reader;
}

type Writable = { -readonly [K in keyof PlayerFigures]: PlayerFigures[K] };

const DAY = { clock: "dayClock", playing: "dayPlaying", upper: "dayUpper", stretch: "dayStretch" } as const;
const WEEK = { clock: "weekClock", playing: "weekPlaying", upper: "weekUpper" } as const;

/** Reads what a level or student states itself. */
export function readPlayer(piece: Piece, declaration: LevelDeclaration | StudentDeclaration): PlayerDraft {
  const reader = new Reader(piece);
  const figures: Writable = {};
  const aims: string[] = [];
  const lets: LetStand[] = [];
  const said = new Map<string, Place>();
  for (const item of declaration.block?.items ?? []) {
    if (item.kind === "unread") continue;
    if (item.kind === "aim") aims.push(item.text.text);
    else if (item.kind === "let") lets.push(readLet(reader, item, declaration));
    else readField(reader, figures, said, item);
  }
  return { piece, declaration, figures, aims, lets, reader };
}

function readField(
  reader: Reader,
  figures: Writable,
  said: Map<string, Place>,
  item: Exclude<PlayerField, { kind: "aim" | "let" }>,
): void {
  const place = reader.place(item);
  if (item.kind === "each") {
    for (const entry of item.block.items) {
      if (entry.kind === "unread") continue;
      const at = reader.place(entry);
      const what = entry.kind === "time at most" ? entry.what : entry.kind;
      if (!firstSaid(reader, said, `each ${item.period}: ${what}`, entry)) continue;
      switch (entry.kind) {
        case "time at most": {
          const value = reader.seconds(entry.time, entry.what);
          if (value === undefined) break;
          if (item.period === "day") figures[DAY[entry.what]] = { value, place: at };
          // A stretch is the same in a day and in a week.
          else if (entry.what === "stretch") figures.dayStretch = { value, place: at };
          else figures[WEEK[entry.what]] = { value, place: at };
          break;
        }
        case "load at most": {
          const value = reader.number(entry.points, "load", 1, 10_000);
          if (value !== undefined)
            figures[item.period === "day" ? "dayLoad" : "weekLoad"] = { value, place: at };
          break;
        }
        case "increase at most": {
          const value = reader.share(entry.share, "increase", 200);
          if (value !== undefined) figures.weekIncrease = { value, place: at };
          break;
        }
        case "days at most": {
          const value = reader.number(entry.days, "days", 1, 7);
          if (value !== undefined) figures.weekDays = { value, place: at };
          break;
        }
      }
    }
    return;
  }
  if (!firstSaid(reader, said, item.kind === "tongue" ? `tongue ${item.how}` : item.kind, item)) return;
  switch (item.kind) {
    case "instrument": {
      const value = findInstrument(item.words.text);
      if (value === undefined) {
        reader.note({
          kind: "unknown-instrument",
          place: reader.place(item.words),
          text: item.words.text,
          known: instrumentNames(),
        });
      } else figures.instrument = { value, place };
      return;
    }
    case "stage":
      figures.stage = { value: item.stage, place };
      return;
    case "range":
    case "limit": {
      const value = readPitchRange(reader, item, item.kind);
      if (value !== undefined) figures[item.kind] = { value, place };
      return;
    }
    case "upper from": {
      const value = reader.pitch(item.pitch);
      if (value !== undefined) figures.upperFrom = { value, place };
      return;
    }
    case "breath": {
      const value = reader.seconds(item.time, "breath");
      if (value !== undefined) figures.breath = { value, place };
      return;
    }
    case "tongue": {
      const value = reader.value(item.value);
      const bpm = reader.bpm(item.bpm);
      if (value === undefined || bpm === undefined) return;
      figures[item.how] = { value: notesPerSecond(value, { num: 1, den: 4 }, bpm), place };
      return;
    }
    case "keys": {
      const keys = item.keys.map((key) => reader.wholeKey(key)).filter((key) => key !== undefined);
      figures.keys = { value: keys, place };
      return;
    }
  }
}

/** The player a draft stands for, over those it is like (nearest first) and over its stage. */
export function completePlayer(draft: PlayerDraft, bases: readonly PlayerDraft[]): Player {
  const layers = [draft, ...bases].reverse();
  let figures: PlayerFigures = {};
  const stage = [draft, ...bases].find((each) => each.figures.stage !== undefined)?.figures.stage;
  if (stage !== undefined) figures = stageFigures(stage.value);
  for (const layer of layers) figures = { ...figures, ...layer.figures };
  return {
    name: draft.declaration.name.text,
    kind: draft.declaration.kind,
    likes: bases.map((base) => base.declaration.name.text),
    place: draft.reader.place(draft.declaration.name),
    figures,
    instrument: figures.instrument?.value ?? (findInstrument("trumpet") as Instrument),
    aims: layers.flatMap((layer) => layer.aims),
    lets: layers.flatMap((layer) => layer.lets),
  };
}
