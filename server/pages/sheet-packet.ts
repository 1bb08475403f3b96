/** A packet: exercises in the areas of the studio, each in its keys, as plain data. */
import type { PlayerTerm } from "../days/day";
import { homePlacement, movedPlacement, type Placement, placementName } from "../days/placement";
import type { Instrument } from "../music/instrument";
import { midiOf, type Pitch } from "../music/pitch";
import type { Fraction } from "../music/rhythm";
import type { Area } from "../plan/area";
import type { Exercise } from "../plan/exercise";
import type { PitchRange } from "../plan/player";
import type { Settings } from "../plan/settings";
import { profileOf } from "../profile/profile";
import { printedWords } from "./sheet-day";
import { calledNote, type Look, type Picture, pictureOf } from "./sheet-picture";
import { restOfExercise, type SheetTempo, sheetTempo } from "./sheet-words";

/** An exercise with the places in which a packet shows it. */
export interface PacketEntry {
  readonly exercise: Exercise;
  readonly placements: readonly Placement[];
  /** Tempi a term asks for, slowest and fastest; undefined for the exercise's own. */
  readonly tempi: { readonly beat: Fraction; readonly slowest: number; readonly fastest: number } | undefined;
}

export interface PacketAsk {
  readonly title: string;
  /** Under the title: for whom, which term, which instrument. */
  readonly lines: readonly string[];
  readonly entries: readonly PacketEntry[];
  readonly areas: readonly Area[];
  readonly instrument: Instrument;
  readonly settings: Settings;
}

export interface PacketExercise {
  readonly name: string;
  readonly aims: readonly string[];
  readonly tempo: SheetTempo | undefined;
  /** Range and rest, each in its own words. */
  readonly facts: readonly string[];
  /** What is played where there are no notes. */
  readonly without: string;
  readonly music: readonly { readonly caption: string; readonly picture: Picture }[];
}

export interface Packet {
  readonly title: string;
  readonly lines: readonly string[];
  readonly areas: readonly {
    readonly name: string;
    readonly aims: readonly string[];
    readonly exercises: readonly PacketExercise[];
  }[];
}

/** The packet of these exercises, in the order of the studio's areas. Areas without an exercise are left out. */
export function packet(ask: PacketAsk, look: Look): Packet {
  const byArea = new Map<string, PacketEntry[]>(ask.areas.map((area) => [area.name, []]));
  for (const entry of ask.entries) {
    const area = byArea.get(entry.exercise.area) ?? [];
    byArea.set(entry.exercise.area, area);
    area.push(entry);
  }
  const aims = new Map(ask.areas.map((area) => [area.name, area.aims]));
  return {
    title: ask.title,
    lines: ask.lines,
    areas: [...byArea]
      .filter(([, entries]) => entries.length > 0)
      .map(([name, entries]) => ({
        name,
        aims: aims.get(name) ?? [],
        exercises: entries.map((entry) => packetExercise(entry, ask, look)),
      })),
  };
}

function packetExercise(entry: PacketEntry, ask: PacketAsk, look: Look): PacketExercise {
  const { exercise, placements, tempi } = entry;
  const { instrument, settings } = ask;
  const tempo = tempi === undefined ? exercise.tempo : { beat: tempi.beat, bpm: tempi.slowest };
  const music = placements.flatMap((placement) => {
    const asked = { exercise, instrument, settings, placement, tempo };
    const picture = pictureOf(asked, look);
    return picture === undefined ? [] : [{ caption: placementName(placement), picture }];
  });
  return {
    name: exercise.name,
    aims: exercise.aims,
    tempo: tempoOf(entry),
    facts: factsOf(entry, music, settings),
    without: withoutNotes(exercise),
    music,
  };
}

function tempoOf({ exercise: { tempo }, tempi }: PacketEntry): SheetTempo | undefined {
  if (tempi === undefined) return tempo === undefined ? undefined : sheetTempo(tempo.beat, tempo.bpm);
  const said = sheetTempo(tempi.beat, tempi.slowest);
  if (tempi.fastest === tempi.slowest) return said;
  return { ...said, number: `${said.number}, growing to ${tempi.fastest}` };
}

function factsOf(
  { exercise }: PacketEntry,
  music: PacketExercise["music"],
  settings: Settings,
): readonly string[] {
  const facts: string[] = [];
  const { content } = exercise;
  const range = content.kind === "printed" ? ([content.low, content.high] as const) : widest(music);
  if (range !== undefined) {
    const [low, high] = range.map(calledNote);
    facts.push(low === high ? `on ${low}` : `${low} to ${high}`);
  }
  const rest = restOfExercise(exercise.rest, settings);
  if (rest !== "") facts.push(rest);
  return facts;
}

function widest(music: PacketExercise["music"]): readonly [Pitch, Pitch] | undefined {
  let [low, high]: (Pitch | undefined)[] = [];
  for (const { picture } of music) {
    if (picture.range === undefined) continue;
    if (low === undefined || midiOf(picture.range[0]) < midiOf(low)) low = picture.range[0];
    if (high === undefined || midiOf(picture.range[1]) > midiOf(high)) high = picture.range[1];
  }
  return low === undefined || high === undefined ? undefined : [low, high];
}

function withoutNotes({ content }: Exercise): string {
  switch (content.kind) {
    case "notes":
      return "";
    case "activity":
      return `${content.activity}, ${content.seconds < 60 ? `${content.seconds} s` : `${Math.round(content.seconds / 6) / 10} min`}`;
    case "printed":
      return printedWords(content);
  }
}

/** Where a packet shows an exercise that no term asks for: at home, or in all its keys or combinations. */
export function bookPlacements(
  exercise: Exercise,
  ask: { readonly instrument: Instrument; readonly settings: Settings },
  keys: "all" | "home",
  limit: PitchRange | undefined,
): readonly Placement[] {
  const { instrument, settings } = ask;
  const home = homePlacement(exercise, instrument);
  const { content } = exercise;
  // A series travels by itself.
  if (content.kind !== "notes" || keys === "home" || exercise.series !== undefined) return [home];
  if (content.by === "partials") {
    return instrument.combinations.map((combination) => ({
      ...home,
      combination,
      semitones: 0 - combination.semitones,
    }));
  }
  const { low, high } = profileOf({ exercise, instrument, settings });
  const within = limit ?? { low: instrument.lowest, high: instrument.exceptional };
  const fits = (by: number): boolean =>
    low === undefined ||
    high === undefined ||
    (low + by >= midiOf(within.low) && high + by <= midiOf(within.high));
  // Up from home by half steps; the farther half of the keys lies nearer below.
  const moves = Array.from({ length: 12 }, (_, by) =>
    [by, by - 12].sort((a, b) => Math.abs(a) - Math.abs(b)),
  );
  return moves.flatMap((ways) => {
    const by = ways.find(fits);
    return by === undefined ? [] : [movedPlacement(home, by)];
  });
}

/** What terms ask for: each exercise once, in the keys in which it comes, in the order in which they come. */
export function travelledEntries(terms: readonly PlayerTerm[]): readonly PacketEntry[] {
  const found = new Map<
    Exercise,
    {
      placements: Map<string, Placement>;
      tempi: { beat: Fraction; slowest: number; fastest: number } | undefined;
    }
  >();
  for (const { items } of terms) {
    for (const { exercise, assignment, passes, bpm, fastest } of items) {
      const entry = found.get(exercise) ?? { placements: new Map<string, Placement>(), tempi: undefined };
      found.set(exercise, entry);
      // A series is written out from its first cell on.
      const shown = exercise.series === undefined ? passes : passes.slice(0, 1);
      for (const { placement } of shown) {
        const name = `${placementName(placement)} ${placement.semitones}`;
        if (!entry.placements.has(name)) entry.placements.set(name, placement);
      }
      const beat = assignment.tempo?.beat ?? exercise.tempo?.beat;
      if (beat === undefined || bpm === undefined) continue;
      const known = entry.tempi;
      if (known === undefined) entry.tempi = { beat, slowest: bpm, fastest: fastest ?? bpm };
      // Tempi in another note value are told apart by the day sheets alone.
      else if (known.beat.num === beat.num && known.beat.den === beat.den) {
        known.slowest = Math.min(known.slowest, bpm);
        known.fastest = Math.max(known.fastest, fastest ?? bpm);
      }
    }
  }
  return [...found].map(([exercise, { placements, tempi }]) => ({
    exercise,
    placements: [...placements.values()],
    tempi,
  }));
}
