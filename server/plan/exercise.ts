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
import { type LetStand, readLet } from "./let-stand";
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
  readonly fields: ReadonlyMap<ExerciseField["kind"], ExerciseField>;
  readonly aims: readonly string[];
  readonly lets: readonly LetStand[];
  readonly reader: Reader;
}

/** The one kind of content an exercise has; saying one of these replaces all of them. */
const CONTENT: readonly ExerciseField["kind"][] = ["music", "printed", "activity"];

/** Reads what a declaration says itself; nothing is asked of other declarations yet. */
export function readExercise(piece: Piece, declaration: ExerciseDeclaration): ExerciseDraft {
  const reader = new Reader(piece);
  const fields = new Map<ExerciseField["kind"], ExerciseField>();
  const aims: string[] = [];
  const lets: LetStand[] = [];
  for (const item of declaration.block?.items ?? []) {
    if (item.kind === "unread") continue;
    if (item.kind === "aim") aims.push(item.text.text);
    else if (item.kind === "let") lets.push(readLet(reader, item, declaration));
    else {
      const content = CONTENT.includes(item.kind);
      const kind = content ? CONTENT.find((each) => fields.has(each)) : item.kind;
      const first = kind === undefined ? undefined : fields.get(kind);
      if (first === undefined) fields.set(item.kind, item);
      else saidTwice(reader, content ? "music" : item.kind, item, first);
    }
  }
  return { piece, declaration, fields, aims, lets, reader };
}

/**
 * The exercise a draft stands for, over the one it is like. What is missing is noted; without an area or
 * without content there is no exercise. Troubles inside a borrowed line are not repeated.
 */
export function completeExercise(
  draft: ExerciseDraft,
  base: ExerciseDraft | undefined,
): { readonly exercise: Exercise | undefined; readonly troubles: readonly Trouble[] } {
  const reader = new Reader(draft.piece);
  return { exercise: completeWith(reader, draft, base), troubles: reader.troubles };
}

function completeWith(
  reader: Reader,
  draft: ExerciseDraft,
  base: ExerciseDraft | undefined,
): Exercise | undefined {
  const { declaration } = draft;
  const own = draft.fields;
  const ownContent = CONTENT.some((kind) => own.has(kind));
  const baseReader = base === undefined ? undefined : new Reader(base.piece);
  function field<K extends ExerciseField["kind"]>(
    kind: K,
  ): { readonly field: Extract<ExerciseField, { kind: K }>; readonly reader: Reader } | undefined {
    const mine = own.get(kind);
    if (mine !== undefined) return { field: mine as Extract<ExerciseField, { kind: K }>, reader };
    if (ownContent && CONTENT.includes(kind)) return undefined;
    const theirs = base?.fields.get(kind);
    if (theirs === undefined || baseReader === undefined) return undefined;
    return { field: theirs as Extract<ExerciseField, { kind: K }>, reader: baseReader };
  }
  const missing = (needs: string, example: string): undefined => {
    // Where the exercise it is like is not to be found, that is said already, and nothing more is known.
    if (declaration.like !== undefined && base === undefined) return undefined;
    const place = reader.place(declaration.name);
    reader.troubles.push({
      kind: "line-missing",
      place,
      what: `the exercise “${declaration.name.text}”`,
      needs,
      example,
    });
    return undefined;
  };
  const area = field("in");
  if (area === undefined) return missing("an area", 'in "Long tones"');

  const tempoField = field("tempo");
  let tempo: Tempo | undefined;
  if (tempoField !== undefined) {
    const beat = tempoField.reader.value(tempoField.field.beat);
    const bpm = tempoField.reader.bpm(tempoField.field.bpm);
    if (beat !== undefined && bpm !== undefined) tempo = { beat, bpm };
  }
  const content = readContent();
  if (content === undefined) return undefined;
  if (content.kind === "notes" && tempo === undefined) {
    if (tempoField === undefined) missing("a tempo", "tempo 1/4 = 72");
    return undefined;
  }
  const ornament = field("ornament");
  const ornamentValue = ornament?.reader.value(ornament.field.on);
  const articulation = field("articulation");
  const series = field("series");
  const rest = field("rest");
  return {
    name: declaration.name.text,
    declaration,
    place: reader.place(declaration.name),
    area: area.field.area.text,
    areaPlace: area.reader.place(area.field.area),
    aims: [...draft.aims, ...(base?.aims ?? [])],
    content,
    tempo,
    rest: rest === undefined ? { kind: "none" } : readRest(rest.reader, rest.field.rest),
    articulation: articulation === undefined ? undefined : readArticulation(articulation.field.articulation),
    ornament:
      ornament === undefined || ornamentValue === undefined
        ? undefined
        : { ornament: ornament.field.ornament, from: ornamentValue },
    series: series === undefined ? undefined : readSeries(series.reader, series.field),
    lets: draft.lets,
  };

  function readContent(): Content | undefined {
    const music = field("music");
    if (music !== undefined) return readNotes(music.field, music.reader);
    const printed = field("printed");
    if (printed !== undefined) {
      const range = field("range");
      const lasts = field("lasts");
      const upper = field("upper");
      if (range === undefined) return missing("its lowest and highest note", "range G3 to G5");
      if (lasts === undefined) return missing("how long it lasts", "lasts 2 min");
      const pitches = readPitchRange(range.reader, range.field, "range");
      const seconds = lasts.reader.seconds(lasts.field.time, "length");
      if (pitches === undefined || seconds === undefined) return undefined;
      const { page, bars } = printed.field;
      return {
        kind: "printed",
        title: printed.field.title.text,
        page: page?.value,
        bars: bars === undefined ? undefined : { from: bars.from.value, to: bars.to.value },
        ...pitches,
        seconds,
        upperSeconds:
          upper === undefined ? 0 : Math.min(seconds, upper.reader.seconds(upper.field.time, "upper") ?? 0),
      };
    }
    const activity = field("activity");
    if (activity !== undefined) {
      const lasts = field("lasts");
      const lips = field("lips");
      if (lasts === undefined) return missing("how long it lasts", "lasts 2 min");
      if (lips === undefined) return missing("whether it uses the lips", "spares lips");
      const seconds = lasts.reader.seconds(lasts.field.time, "length");
      if (seconds === undefined) return undefined;
      return {
        kind: "activity",
        activity: activity.field.activity.text,
        loadsLips: lips.field.how === "loads",
        seconds,
      };
    }
    return missing("something to play", "music { 1/4 C4 D4 E4 F4 | }");
  }

  function readNotes(field_: MusicField, where: Reader): Content | undefined {
    const dynamicField = field("dynamic");
    const dynamic: Dynamic = dynamicField?.field.dynamic ?? "mf";
    const meterField = field("meter");
    if (meterField === undefined) return missing("a meter", "meter 4/4");
    const meter =
      meterField.field.value === undefined ? undefined : meterField.reader.meter(meterField.field.value);
    let key: Key | undefined;
    if (field_.by !== "partials") {
      const keyField = field("key");
      if (keyField === undefined) return missing("a key", "key C major");
      key = keyField.reader.wholeKey(keyField.field.key);
      if (key === undefined) return undefined;
    }
    let tonicOctave = 4;
    if (field_.from !== undefined && key !== undefined) {
      const from = where.pitch(field_.from);
      if (from === undefined) return undefined;
      if (from.step !== key.step || from.alter !== key.alter) {
        where.troubles.push({
          kind: "degree-home",
          place: where.place(field_.from),
          from: pitchSign(from),
          key: keyName(key),
        });
      }
      tonicOctave = from.octave;
    }
    let score = buildScore(where, field_.music, { key, meter, dynamic, tonicOctave });
    const rhythm = field("rhythm");
    if (rhythm !== undefined) {
      const values = rhythm.field.values
        .map((value) => rhythm.reader.value(value))
        .filter((value): value is Fraction => value !== undefined);
      const varied = appliedRhythm(score, values);
      if (varied === undefined) {
        rhythm.reader.troubles.push({
          kind: "rhythm-does-not-fit",
          place: rhythm.reader.place(rhythm.field),
          exercise: declaration.name.text,
        });
      } else score = varied;
    }
    // Music of its own is written where it is meant; only borrowed music stays moved with it.
    const moved = ownContent && !own.has("moved") ? undefined : field("moved")?.field;
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
    return { kind: "notes", by: field_.by, score, key, tonicOctave, piece: where.piece };
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

/** The rest after each time through; a length that cannot be meant counts as none. */
export function readRest(reader: Reader, rest: RestText): Rest {
  if (rest.kind !== "time") return { kind: rest.kind };
  const seconds = reader.seconds(rest.time, "rest");
  return seconds === undefined ? { kind: "none" } : { kind: "time", seconds };
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
  reader.troubles.push({ kind: "upside-down", place, what, low: field.low.text, high: field.high.text });
  return undefined;
}
