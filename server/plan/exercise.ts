import type { Piece } from "../../grammar/piece";
import type { Span } from "../../grammar/span";
import type {
  ArticulationText,
  ExerciseDeclaration,
  ExerciseField,
  MusicField,
  OrnamentWord,
  RestText,
} from "../../grammar/tree";
import { transpose } from "../music/interval";
import { type Key, keyName, tonicAt } from "../music/key";
import type { Dynamic } from "../music/loudness";
import { midiOf, type Pitch, pitchSign } from "../music/pitch";
import type { Fraction } from "../music/rhythm";
import { type DraftLine, ExerciseLines, type FieldOf, isContent } from "./exercise-lines";
import { type LetStand, readLet } from "./let-stand";
import { listed, NONE } from "./listed";
import type { Place } from "./place";
import { Reader, saidTwice, stepInterval } from "./reader";
import { appliedRhythm } from "./rhythm-pattern";
import type { Score } from "./score";
import { buildScore } from "./score-builder";
import type { Trouble } from "./trouble";

/** How long to rest after each time through. */
export type Rest =
  | { readonly kind: "equal" }
  | { readonly kind: "none" }
  | { readonly kind: "time"; readonly seconds: number };

/** How notes are to be joined and tongued, in place of what is written. */
export type Articulation =
  | { readonly kind: Exclude<ArticulationText["kind"], "pattern"> }
  | {
      readonly kind: "pattern";
      readonly groups: readonly { readonly how: "slur" | "tongue"; readonly notes: number }[];
    };

export interface Tempo {
  readonly beat: Fraction;
  readonly bpm: number;
}

export interface Series {
  /** Undefined: as many as the minutes hold. */
  readonly cells: number | undefined;
  /** Half steps from one cell to the next, negative downwards. */
  readonly semitones: number;
}

/** What is played: notes, a printed page, or work without notes. */
export type Content =
  | {
      readonly kind: "notes";
      readonly by: MusicField["by"];
      readonly score: Score;
      /** Undefined for partials. */
      readonly key: Key | undefined;
      readonly tonicOctave: number;
      /** Where the notes are written: another exercise's piece where they are borrowed. */
      readonly piece: Piece;
    }
  | {
      readonly kind: "printed";
      readonly title: string;
      readonly page: number | undefined;
      readonly bars: { readonly from: number; readonly to: number } | undefined;
      readonly low: Pitch;
      readonly high: Pitch;
      readonly seconds: number;
      readonly upperSeconds: number;
    }
  | {
      readonly kind: "activity";
      readonly activity: string;
      readonly loadsLips: boolean;
      readonly seconds: number;
    };

export interface Exercise {
  readonly name: string;
  readonly declaration: ExerciseDeclaration;
  readonly place: Place;
  readonly area: string;
  readonly areaPlace: Place;
  readonly aims: readonly string[];
  readonly content: Content;
  /** Undefined where nothing is counted (an activity, a printed page without a tempo). */
  readonly tempo: Tempo | undefined;
  readonly rest: Rest;
  readonly articulation: Articulation | undefined;
  readonly ornament: { readonly ornament: OrnamentWord; readonly from: Fraction } | undefined;
  readonly series: Series | undefined;
  readonly lets: readonly LetStand[];
}

/** What one declaration says itself; what it is `like` is joined later. */
export interface ExerciseDraft {
  readonly piece: Piece;
  readonly declaration: ExerciseDeclaration;
  readonly fields: ExerciseLines;
  readonly aims: readonly string[];
  readonly lets: readonly LetStand[];
  /** What could not be meant in it, whatever it is like. */
  readonly troubles: readonly Trouble[];
}

/** Reads what a declaration says itself; nothing is asked of other declarations yet. */
export function readExercise(piece: Piece, declaration: ExerciseDeclaration): ExerciseDraft {
  const reader = new Reader(piece);
  const lines = declaration.block?.items ?? NONE;
  let aims: string[] | undefined;
  let lets: LetStand[] | undefined;
  for (const line of lines) {
    if (line.kind === "aim") aims = listed(aims, line.text.text);
    else if (line.kind === "let") lets = listed(lets, readLet(reader, line, declaration));
  }
  let fields = new ExerciseLines(lines);
  if (fields.sayTwice()) fields = new ExerciseLines(firstLines(reader, lines));
  return { piece, declaration, fields, aims: aims ?? NONE, lets: lets ?? NONE, troubles: reader.troubles };
}

/** The lines that hold; all others are noted. */
function firstLines(reader: Reader, lines: readonly DraftLine[]): readonly DraftLine[] {
  const fields: DraftLine[] = [];
  for (const line of lines) {
    if (line.kind === "aim" || line.kind === "let" || line.kind === "unread") continue;
    const content = isContent(line.kind);
    const first = fields.find(({ kind }) => (content ? isContent(kind) : kind === line.kind));
    if (first === undefined) fields.push(line);
    else saidTwice(reader, content ? "music" : line.kind, line, first);
  }
  return fields;
}

/**
 * The exercise a draft stands for, over the one it is like. What is missing is noted; without an area or
 * without content there is no exercise. Troubles inside a borrowed line are not repeated.
 */
export function completeExercise(
  draft: ExerciseDraft,
  base: ExerciseDraft | undefined,
): { readonly exercise: Exercise | undefined; readonly troubles: readonly Trouble[] } {
  const completion = new Completion(draft, base);
  return { exercise: completion.exercise(), troubles: completion.troubles };
}

/** A draft over the one it is like. */
class Completion {
  private readonly reader: Reader;
  /** Of the lines that are borrowed; what it notes is said where they stand. */
  private readonly baseReader: Reader | undefined;

  constructor(
    private readonly draft: ExerciseDraft,
    private readonly base: ExerciseDraft | undefined,
  ) {
    this.reader = new Reader(draft.piece);
    this.baseReader = base === undefined ? undefined : new Reader(base.piece);
  }

  get troubles(): readonly Trouble[] {
    return this.reader.troubles;
  }

  exercise(): Exercise | undefined {
    const { draft, base, reader } = this;
    const { declaration } = draft;
    const area = this.field("in");
    if (area === undefined) return this.missing("an area", 'in "Long tones"');
    const tempo = this.tempo();
    const content = this.content();
    if (content === undefined) return undefined;
    if (content.kind === "notes" && tempo === undefined) {
      if (this.field("tempo") === undefined) this.missing("a tempo", "tempo 1/4 = 72");
      return undefined;
    }
    const ornament = this.field("ornament");
    const ornamentValue = ornament && this.readerOf(ornament).value(ornament.on);
    const articulation = this.field("articulation");
    const series = this.field("series");
    const rest = this.field("rest");
    return {
      name: declaration.name.text,
      declaration,
      place: reader.place(declaration.name),
      area: area.area.text,
      areaPlace: this.readerOf(area).place(area.area),
      aims: base === undefined || base.aims.length === 0 ? draft.aims : [...draft.aims, ...base.aims],
      content,
      tempo,
      rest: rest === undefined ? NO_REST : readRest(this.readerOf(rest), rest.rest),
      articulation: articulation && readArticulation(articulation.articulation),
      ornament:
        ornament === undefined || ornamentValue === undefined
          ? undefined
          : { ornament: ornament.ornament, from: ornamentValue },
      series: series && readSeries(this.readerOf(series), series),
      lets: draft.lets,
    };
  }

  /** The line of a kind, its own or else borrowed; with content of its own, an exercise borrows none. */
  private field<K extends ExerciseField["kind"]>(kind: K): FieldOf<K> | undefined {
    const { draft, base } = this;
    const own = draft.fields.of(kind);
    if (own !== undefined || base === undefined) return own;
    return draft.fields.sayContent && isContent(kind) ? undefined : base.fields.of(kind);
  }

  /** The reader of the piece that a line stands in. */
  private readerOf(field: ExerciseField): Reader {
    const { reader, baseReader } = this;
    return baseReader === undefined || this.draft.fields.all.includes(field) ? reader : baseReader;
  }

  private missing(needs: string, example: string): undefined {
    const { reader } = this;
    const { like, name } = this.draft.declaration;
    // Where the exercise it is like is not to be found, that is said already, and nothing more is known.
    if (like !== undefined && this.base === undefined) return undefined;
    const place = reader.place(name);
    reader.note({ kind: "line-missing", place, what: `the exercise “${name.text}”`, needs, example });
    return undefined;
  }

  private tempo(): Tempo | undefined {
    const field = this.field("tempo");
    if (field === undefined) return undefined;
    const reader = this.readerOf(field);
    const beat = reader.value(field.beat);
    const bpm = reader.bpm(field.bpm);
    return beat === undefined || bpm === undefined ? undefined : { beat, bpm };
  }

  private content(): Content | undefined {
    const music = this.field("music");
    if (music !== undefined) return this.notes(music);
    const printed = this.field("printed");
    if (printed !== undefined) return this.printed(printed);
    const activity = this.field("activity");
    if (activity !== undefined) {
      const lasts = this.field("lasts");
      const lips = this.field("lips");
      if (lasts === undefined) return this.missing("how long it lasts", "lasts 2 min");
      if (lips === undefined) return this.missing("whether it uses the lips", "spares lips");
      const seconds = this.readerOf(lasts).seconds(lasts.time, "length");
      if (seconds === undefined) return undefined;
      return { kind: "activity", activity: activity.activity.text, loadsLips: lips.how === "loads", seconds };
    }
    return this.missing("something to play", "music { 1/4 C4 D4 E4 F4 | }");
  }

  private printed({ title, page, bars }: FieldOf<"printed">): Content | undefined {
    const range = this.field("range");
    const lasts = this.field("lasts");
    const upper = this.field("upper");
    if (range === undefined) return this.missing("its lowest and highest note", "range G3 to G5");
    if (lasts === undefined) return this.missing("how long it lasts", "lasts 2 min");
    const pitches = readPitchRange(this.readerOf(range), range, "range");
    const seconds = this.readerOf(lasts).seconds(lasts.time, "length");
    if (pitches === undefined || seconds === undefined) return undefined;
    return {
      kind: "printed",
      title: title.text,
      page: page?.value,
      bars: bars === undefined ? undefined : { from: bars.from.value, to: bars.to.value },
      ...pitches,
      seconds,
      upperSeconds:
        upper === undefined ? 0 : Math.min(seconds, this.readerOf(upper).seconds(upper.time, "upper") ?? 0),
    };
  }

  private notes(music: MusicField): Content | undefined {
    const where = this.readerOf(music);
    const dynamic: Dynamic = this.field("dynamic")?.dynamic ?? "mf";
    const meterField = this.field("meter");
    if (meterField === undefined) return this.missing("a meter", "meter 4/4");
    const meter = meterField.value && this.readerOf(meterField).meter(meterField.value);
    let key: Key | undefined;
    if (music.by !== "partials") {
      const keyField = this.field("key");
      if (keyField === undefined) return this.missing("a key", "key C major");
      key = this.readerOf(keyField).wholeKey(keyField.key);
      if (key === undefined) return undefined;
    }
    let tonicOctave = 4;
    if (music.from !== undefined && key !== undefined) {
      const from = where.pitch(music.from);
      if (from === undefined) return undefined;
      if (from.step !== key.step || from.alter !== key.alter) {
        where.note({
          kind: "degree-home",
          place: where.place(music.from),
          from: pitchSign(from),
          key: keyName(key),
        });
      }
      tonicOctave = from.octave;
    }
    let score = buildScore(where, music.music, { key, meter, dynamic, tonicOctave });
    const rhythm = this.field("rhythm");
    if (rhythm !== undefined) score = this.varied(score, rhythm);
    // Music of its own is written where it is meant; only borrowed music stays moved with it.
    const { fields } = this.draft;
    const moved = fields.sayContent ? fields.of("moved") : this.field("moved");
    if (moved !== undefined && key !== undefined) {
      const up = stepInterval(moved.step);
      const by = moved.direction === "up" ? up : { steps: -up.steps, semitones: -up.semitones };
      const from = transpose({ step: key.step, alter: key.alter, octave: tonicOctave }, by);
      score = movedScore(score, by);
      const home = tonicAt(key, by.semitones);
      // An enharmonic home (D♭ for C♯) is spelled as the key commonly is.
      key = home;
      tonicOctave = from.octave;
    }
    return { kind: "notes", by: music.by, score, key, tonicOctave, piece: where.piece };
  }

  /** The score in another rhythm, or as it is where that fits nowhere. */
  private varied(score: Score, rhythm: FieldOf<"rhythm">): Score {
    const reader = this.readerOf(rhythm);
    const values = rhythm.values.map((value) => reader.value(value)).filter((value) => value !== undefined);
    const varied = appliedRhythm(score, values);
    if (varied !== undefined) return varied;
    const exercise = this.draft.declaration.name.text;
    reader.note({ kind: "rhythm-does-not-fit", place: reader.place(rhythm), exercise });
    return score;
  }
}

function movedScore(score: Score, by: { readonly steps: number; readonly semitones: number }): Score {
  return {
    order: score.order,
    bars: score.bars.map((bar) => ({
      ...bar,
      key: bar.key === undefined ? undefined : tonicAt(bar.key, by.semitones),
      events: bar.events.map((event) =>
        event.kind === "rest" || event.pitch === undefined ? event : event.at(transpose(event.pitch, by)),
      ),
    })),
  };
}

const NO_REST: Rest = { kind: "none" };

/** The rest after each time through; a length that cannot be meant counts as none. */
export function readRest(reader: Reader, rest: RestText): Rest {
  if (rest.kind !== "time") return { kind: rest.kind };
  const seconds = reader.seconds(rest.time, "rest");
  return seconds === undefined ? NO_REST : { kind: "time", seconds };
}

/** An articulation as asked for, its groups of at least one note. */
export function readArticulation(node: ArticulationText): Articulation {
  if (node.kind !== "pattern") return { kind: node.kind };
  return {
    kind: "pattern",
    groups: node.groups.map((group) => ({ how: group.how, notes: Math.max(1, group.notes.value) })),
  };
}

function readSeries(reader: Reader, field: Extract<ExerciseField, { kind: "series" }>): Series {
  const semitones = stepInterval(field.step).semitones;
  return {
    cells: field.cells === undefined ? undefined : reader.number(field.cells, "cells", 1, 100),
    semitones: field.direction === "up" ? semitones : -semitones,
  };
}

/** Two pitches of a range, noted where the low one is not the lower. */
export function readPitchRange(
  reader: Reader,
  field: {
    readonly low: { readonly text: string; readonly span: Span };
    readonly high: { readonly text: string; readonly span: Span };
  },
  what: string,
): { low: Pitch; high: Pitch } | undefined {
  const low = reader.pitch(field.low);
  const high = reader.pitch(field.high);
  if (low === undefined || high === undefined) return undefined;
  if (midiOf(low) <= midiOf(high)) return { low, high };
  const place = { piece: reader.piece, span: { start: field.low.span.start, end: field.high.span.end } };
  reader.note({ kind: "upside-down", place, what, low: field.low.text, high: field.high.text });
  return undefined;
}
