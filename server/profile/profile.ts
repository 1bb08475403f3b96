import { Memory } from "../../grammar/memory";
import { hertz } from "../music/frequency";
import type { Instrument } from "../music/instrument";
import { degreePitch, type Mode } from "../music/key";
import { type Dynamic, decibels, pressureFactor } from "../music/loudness";
import { midiOf, type Pitch } from "../music/pitch";
import { toNumber } from "../music/rhythm";
import { partialMidi } from "../music/valves";
import { articulated } from "../plan/articulate";
import type { Articulation, Content, Exercise } from "../plan/exercise";
import type { Place } from "../plan/place";
import type { Score, ScoreNote } from "../plan/score";
import type { Settings } from "../plan/settings";

/**
 * A length that is part in time (whole notes, scaled by the tempo) and part fixed (seconds, as in a free bar).
 */
export interface Length {
  readonly whole: number;
  readonly seconds: number;
}

/** Seconds of a length, where a whole note lasts `wholeSeconds`. */
export function lasting(length: Length, wholeSeconds: number): number {
  return length.whole * wholeSeconds + length.seconds;
}

/** A run of notes between two breaths, scaled to what it asks of one breath at mf. */
export interface Phrase {
  readonly length: Length;
  /** The same, each note weighted by how fast its dynamic uses air. */
  readonly air: Length;
  readonly place: Place;
}

/** Notes that must lie on one valve combination. */
export interface LipSlur {
  readonly midis: readonly number[];
  readonly place: Place;
}

/** A rest inside the music long enough that it may let the horn come down. */
export interface Gap {
  /** What sounds (and rests shortly) between the gap before, or the start, and this one. */
  readonly before: Length;
  readonly rest: Length;
}

/**
 * What one time through an exercise asks, in its home position and free of tempo. Every other key is the same
 * shifted by half steps, so it is computed once for each instrument, mode and articulation.
 */
export interface Profile {
  readonly playing: Length;
  readonly resting: Length;
  /** Written MIDI numbers of its lowest and highest note; undefined where there are none. */
  readonly low: number | undefined;
  readonly high: number | undefined;
  /**
   * How much lies at or above each MIDI number from the lowest note's to the highest's: whole notes and, where any
   * note lasts a fixed time, seconds. Empty where there are no notes; `secondsFrom` answers for every number.
   */
  readonly atOrAbove: readonly (readonly number[])[];
  /** Load in points, were each note in its home position: whole notes and seconds apart. */
  readonly load: Length;
  /** Upper seconds as declared (a printed page), at its own tempo; then `atOrAbove` says nothing. */
  readonly declaredUpper: Length | undefined;
  /** Those that may ask most of one breath. */
  readonly phrases: readonly Phrase[];
  /** The fastest run of tongued notes, in notes per whole note; 0 for none. */
  readonly tongue: { readonly single: number; readonly double: number; readonly triple: number };
  readonly lipSlurs: readonly LipSlur[];
  readonly gaps: readonly Gap[];
  readonly tail: Length;
  readonly held: boolean;
}

/** Tongued notes in a row that make a run; fewer are a flourish. Common practice, no source. */
const RUN = 4;
/** In-music rests from this many whole notes on may be long enough for the horn to come down. */
const LONG_REST = 1;
/** The shortest rest, as a part of a whole note, in which a player can breathe. Common practice, no source. */
const BREATHING_REST = 1 / 8;

const ZERO_LENGTH: Length = { whole: 0, seconds: 0 };

/** The profiles of one exercise. Most are asked for as they stand, again and again, without a name spelled out. */
interface Kept {
  /** The last one asked for as the exercise stands, and by whom; undefined where none was. */
  profile: Profile | undefined;
  instrument: Instrument;
  settings: Settings;
  named: Map<string, Profile> | undefined;
}

const caches = new Memory<Exercise, Kept>();

export interface ProfileAsk {
  readonly exercise: Exercise;
  readonly instrument: Instrument;
  readonly settings: Settings;
  /** Another articulation than the exercise's own. */
  readonly articulation?: Articulation | undefined;
  readonly dynamic?: Dynamic | undefined;
  /** Another mode than the home key's, for music by degrees. */
  readonly mode?: Mode | undefined;
}

/** The profile of an exercise; kept with the exercise, so that it is computed once. */
export function profileOf(ask: ProfileAsk): Profile {
  const { exercise, instrument, settings, dynamic, mode } = ask;
  const articulation = ask.articulation ?? exercise.articulation;
  if (articulation !== undefined || dynamic !== undefined || mode !== undefined) {
    const name = `${articulationKey(articulation)}|${dynamic ?? ""}|${mode ?? ""}`;
    const kept = keptOf(exercise, instrument, settings);
    return named(kept, nameFor(instrument, settings, name), { ...ask, articulation });
  }
  return plainProfile(exercise, instrument, settings);
}

/** The profile of an exercise as it stands, in its own articulation, dynamics and mode. */
export function profileAsItStands(exercise: Exercise, instrument: Instrument, settings: Settings): Profile {
  return exercise.articulation === undefined
    ? plainProfile(exercise, instrument, settings)
    : profileOf({ exercise, instrument, settings });
}

function plainProfile(exercise: Exercise, instrument: Instrument, settings: Settings): Profile {
  const kept = keptOf(exercise, instrument, settings);
  const before = kept.profile;
  if (before !== undefined && kept.instrument === instrument && kept.settings === settings) return before;
  const ask = { exercise, instrument, settings };
  let profile: Profile;
  if (before === undefined) profile = compute(ask);
  else {
    kept.named ??= new Map();
    kept.named.set(nameFor(kept.instrument, kept.settings, ""), before);
    profile = named(kept, nameFor(instrument, settings, ""), ask);
  }
  kept.profile = profile;
  kept.instrument = instrument;
  kept.settings = settings;
  return profile;
}

function keptOf(exercise: Exercise, instrument: Instrument, settings: Settings): Kept {
  let kept = caches.get(exercise);
  if (kept === undefined) {
    kept = { profile: undefined, instrument, settings, named: undefined };
    caches.set(exercise, kept);
  }
  return kept;
}

function nameFor(instrument: Instrument, settings: Settings, name: string): string {
  return `${instrument.id}|${settings.key}|${name}`;
}

function named(kept: Kept, name: string, ask: ProfileAsk): Profile {
  kept.named ??= new Map();
  let profile = kept.named.get(name);
  if (profile === undefined) {
    profile = compute(ask);
    kept.named.set(name, profile);
  }
  return profile;
}

function articulationKey(articulation: Articulation | undefined): string {
  if (articulation === undefined) return "";
  if (articulation.kind !== "pattern") return articulation.kind;
  return articulation.groups.map((group) => `${group.how} ${group.notes}`).join(" ");
}

function compute(ask: ProfileAsk): Profile {
  const { exercise, settings, instrument } = ask;
  const { content } = exercise;
  switch (content.kind) {
    case "notes":
      return new NoteProfile(ask, articulated(content.score, ask.articulation), content).read();
    case "printed": {
      const low = midiOf(content.low);
      const high = midiOf(content.high);
      // Seconds at its own tempo become whole notes of it, so that another tempo scales them.
      const scaled = (seconds: number): Length =>
        exercise.tempo === undefined
          ? { whole: 0, seconds }
          : { whole: (seconds * exercise.tempo.bpm * toNumber(exercise.tempo.beat)) / 60, seconds: 0 };
      const playing = scaled(content.seconds);
      // Nobody has typed its notes: the load takes the middle of its range, at mf.
      const factor = frequencyFactor((low + high) / 2, instrument, settings) / 60;
      return {
        ...SILENT,
        playing,
        low,
        high,
        declaredUpper: scaled(content.upperSeconds),
        load: { whole: playing.whole * factor, seconds: playing.seconds * factor },
        tail: playing,
      };
    }
    case "activity": {
      const length = { whole: 0, seconds: content.seconds };
      return content.loadsLips
        ? { ...SILENT, playing: length, tail: length }
        : { ...SILENT, resting: length };
    }
  }
}

const SILENT: Profile = {
  playing: ZERO_LENGTH,
  resting: ZERO_LENGTH,
  low: undefined,
  high: undefined,
  atOrAbove: [],
  load: ZERO_LENGTH,
  declaredUpper: undefined,
  phrases: [],
  tongue: { single: 0, double: 0, triple: 0 },
  lipSlurs: [],
  gaps: [],
  tail: ZERO_LENGTH,
  held: false,
};

/** (f ÷ f₀) to the studio's exponent, f₀ being the instrument's home note. */
function frequencyFactor(midi: number, instrument: Instrument, settings: Settings): number {
  return (hertz(midi) / hertz(midiOf(instrument.home))) ** settings.loadExponent;
}

const factorTables = new Memory<Instrument, Map<number, readonly number[]>>();

/** (f ÷ f₀) to an exponent for every MIDI number: a table, since every note of every exercise asks. */
function frequencyFactors(instrument: Instrument, exponent: number): readonly number[] {
  let tables = factorTables.get(instrument);
  if (tables === undefined) {
    tables = new Map();
    factorTables.set(instrument, tables);
  }
  let table = tables.get(exponent);
  if (table === undefined) {
    const home = hertz(midiOf(instrument.home));
    table = Array.from({ length: 129 }, (_, midi) => (hertz(midi) / home) ** exponent);
    tables.set(exponent, table);
  }
  return table;
}

class Sum {
  whole = 0;
  seconds = 0;
  add(other: Sum): void {
    this.whole += other.whole;
    this.seconds += other.seconds;
  }
  /** What was added up; the same object as another length that is the same. */
  take(other: Length = ZERO_LENGTH): Length {
    const { whole, seconds } = this;
    this.clear();
    if (whole === other.whole && seconds === other.seconds) return other;
    return whole === 0 && seconds === 0 ? ZERO_LENGTH : { whole, seconds };
  }
  become({ whole, seconds }: Sum): void {
    this.whole = whole;
    this.seconds = seconds;
  }
  clear(): void {
    this.whole = 0;
    this.seconds = 0;
  }
}

/**
 * By MIDI number, for the one profile that is being read: whole notes, and seconds where there is a free bar.
 * Every profile fills and sums up the same lists, and these sums.
 */
const wholes: number[] = new Array<number>(129).fill(0);
const fixed: number[] = new Array<number>(129).fill(0);
/**
 * How long the event at hand lasts. It is not handed from function to function: a fraction that is, is a piece of
 * memory each time, and every note of every exercise comes by here.
 */
const now = new Sum();
const playing = new Sum();
const resting = new Sum();
const load = new Sum();
/** The phrase at hand, as it lasts and as it asks of the breath. */
const phrase = new Sum();
const air = new Sum();
/** The longest phrase so far, likewise. */
const longest = new Sum();
const longestAir = new Sum();
/** What sounds since the last gap, and the silence that may become the next. */
const run = new Sum();
const silence = new Sum();
const SUMS = [playing, resting, load, phrase, air, longest, longestAir, run, silence];
/** The last notes of a run of tongued ones, fewer than RUN. */
const struck: number[] = new Array<number>(RUN - 1).fill(0);

/** The notes of a lip slur by its number, as far as they were met. */
interface Slurred {
  readonly slur: number;
  midis: readonly number[];
  readonly start: number;
  end: number;
}

class NoteProfile {
  /** Whether no bar lasts a fixed time, and whether any note does. */
  private readonly inTime: boolean;
  private anyFixed = false;
  private readonly factors: readonly number[];
  private phraseFrom: ScoreNote | undefined;
  private phraseTo: ScoreNote | undefined;
  private phraseHeld = false;
  /** The first and last note of the longest phrase. */
  private longestFrom: ScoreNote | undefined;
  private longestTo: ScoreNote | undefined;
  /** All phrases, where some bar lasts a fixed time. */
  private phrases: Phrase[] | undefined;
  private gaps: Gap[] | undefined;
  /** How many notes of a run were struck, fewer than RUN. */
  private strikes = 0;
  private tonguing: ScoreNote["tonguing"] = "single";
  private tongue: { single: number; double: number; triple: number } | undefined;
  private slurs: Slurred[] | undefined;
  private low: number | undefined;
  private high: number | undefined;
  private held = false;
  /** What the dynamic that is read asks of the air; most notes have that of the note before. */
  private dynamic: Dynamic | undefined;
  private pressure = 1;
  private lasts = 1;

  constructor(
    private readonly ask: ProfileAsk,
    private readonly score: Score,
    private readonly content: Extract<Content, { kind: "notes" }>,
  ) {
    this.factors = frequencyFactors(ask.instrument, ask.settings.loadExponent);
    this.inTime = isInTime(score);
    for (const sum of SUMS) sum.clear();
    clear(wholes);
    if (!this.inTime) clear(fixed);
  }

  read(): Profile {
    const { settings } = this.ask;
    for (const index of this.score.order) {
      const bar = this.score.bars[index]!;
      const whole = toNumber(bar.length);
      // In a free bar the written values share out its seconds.
      const free = bar.freeSeconds === undefined || whole === 0 ? undefined : bar.freeSeconds / whole;
      for (const event of bar.events) {
        const value = toNumber(event.value);
        const fermata = event.kind === "note" && hasFermata(event) ? settings.fermata : 1;
        now.whole = free === undefined ? value * fermata : 0;
        now.seconds = free === undefined ? 0 : value * free;
        if (event.kind === "rest") {
          resting.add(now);
          this.strikes = 0;
          if (value >= BREATHING_REST || event.breath || free !== undefined) this.closePhrase();
          silence.add(now);
        } else {
          this.endSilence();
          this.note(event);
        }
      }
    }
    this.endSilence();
    this.closePhrase();
    const played = playing.take();
    return {
      playing: played,
      resting: resting.take(),
      low: this.low,
      high: this.high,
      atOrAbove: this.registers(),
      load: load.take(),
      declaredUpper: undefined,
      phrases: this.telling(),
      tongue: this.tongue ?? SILENT.tongue,
      lipSlurs: this.lipSlurs(),
      gaps: this.gaps ?? SILENT.gaps,
      tail: run.take(played),
      held: this.held,
    };
  }

  private registers(): Profile["atOrAbove"] {
    const { low, high } = this;
    if (low === undefined || high === undefined) return SILENT.atOrAbove;
    const inTime = fromTheTop(wholes, low, high);
    return this.anyFixed ? [inTime, fromTheTop(fixed, low, high)] : [inTime];
  }

  /** Only the phrases that may be the longest at some tempo: in time alone, there is one. */
  private telling(): readonly Phrase[] {
    if (this.phrases?.some(({ length }) => length.seconds > 0)) return this.phrases;
    const { longestFrom: from, longestTo: to } = this;
    if (from === undefined || to === undefined) return SILENT.phrases;
    const length = longest.take();
    return [{ length, air: longestAir.take(length), place: this.between(from, to) }];
  }

  private lipSlurs(): readonly LipSlur[] {
    const { piece } = this.content;
    return (
      this.slurs?.map(({ midis, start, end }) => ({ midis, place: { piece, span: { start, end } } })) ??
      SILENT.lipSlurs
    );
  }

  /** Rests that follow each other are one: long enough for a gap, or part of the run. */
  private endSilence(): void {
    if (silence.whole >= LONG_REST || silence.seconds > 0) {
      this.gaps ??= [];
      this.gaps.push({ before: run.take(), rest: silence.take() });
    } else if (silence.whole > 0) {
      run.add(silence);
      silence.clear();
    }
  }

  private note(note: ScoreNote): void {
    const { instrument, dynamic: asked } = this.ask;
    const home = this.midi(note, instrument);
    // A bend counts as the lowest pitch it reaches.
    // Degrees may run off any keyboard; there is nothing to measure beyond its ends.
    const midi = Math.max(0, Math.min(128, home - note.bend));
    this.blow(asked ?? note.dynamic);
    playing.add(now);
    run.add(now);
    wholes[midi]! += now.whole;
    if (now.seconds > 0) {
      this.anyFixed = true;
      fixed[midi]! += now.seconds;
    }
    const effort = (this.factors[midi]! * this.pressure) / 60;
    load.whole += now.whole * effort;
    load.seconds += now.seconds * effort;
    if (this.low === undefined || midi < this.low) this.low = midi;
    if (this.high === undefined || midi > this.high) this.high = midi;
    this.breathe(note);
    this.strike(note);
    if (note.lipSlur !== undefined) this.slur(note, note.lipSlur, home);
  }

  private slur({ span }: ScoreNote, slur: number, midi: number): void {
    this.slurs ??= [];
    // The last one first: only a repeat goes back to an earlier one.
    const known = this.slurs.findLast((each) => each.slur === slur);
    if (known === undefined) {
      this.slurs.push({ slur, midis: [midi], start: span.start, end: span.end });
      return;
    }
    if (!known.midis.includes(midi)) known.midis = known.midis.concat(midi);
    if (span.end > known.end) known.end = span.end;
  }

  private midi(note: ScoreNote, instrument: Instrument): number {
    if (note.partial !== undefined) return partialMidi(note.partial, instrument.combinations[0]!, instrument);
    const { mode } = this.ask;
    if (
      note.degree !== undefined &&
      mode !== undefined &&
      this.content.key !== undefined &&
      mode !== this.content.key.mode
    ) {
      const { degree, alter, direction } = note.degree;
      return midiOf(
        degreePitch({ ...this.content.key, mode }, this.content.tonicOctave, degree, alter, direction),
      );
    }
    return midiOf(note.pitch as Pitch);
  }

  private blow(dynamic: Dynamic): void {
    if (dynamic === this.dynamic) return;
    this.dynamic = dynamic;
    const { settings } = this.ask;
    this.pressure = pressureFactor(decibels(dynamic, settings.dynamicStep));
    const step = decibels(dynamic);
    // p (two steps under mf) and softer last longer, f (one step over) and louder shorter.
    this.lasts =
      step <= decibels("p") ? settings.softBreath : step >= decibels("f") ? settings.loudBreath : 1;
  }

  private breathe(note: ScoreNote): void {
    const { lasts } = this;
    this.phraseFrom ??= note;
    this.phraseTo = note;
    phrase.add(now);
    air.whole += now.whole / lasts;
    air.seconds += now.seconds / lasts;
    if (note.held) {
      this.phraseHeld = true;
      this.held = true;
    }
    if (note.breath) this.closePhrase();
  }

  private closePhrase(): void {
    const { phraseFrom: from, phraseTo: to } = this;
    if (from !== undefined && to !== undefined && !this.phraseHeld) {
      if (!this.inTime) {
        this.phrases ??= [];
        const { whole, seconds } = phrase;
        const length = { whole, seconds };
        this.phrases.push({
          length,
          air: { whole: air.whole, seconds: air.seconds },
          place: this.between(from, to),
        });
      }
      if (this.longestFrom === undefined || air.whole > longestAir.whole) {
        longest.become(phrase);
        longestAir.become(air);
        this.longestFrom = from;
        this.longestTo = to;
      }
    }
    phrase.clear();
    air.clear();
    this.phraseFrom = undefined;
    this.phraseTo = undefined;
    this.phraseHeld = false;
  }

  private between({ span: one }: ScoreNote, { span: other }: ScoreNote): Place {
    const span = { start: Math.min(one.start, other.start), end: Math.max(one.end, other.end) };
    return { piece: this.content.piece, span };
  }

  /** Keeps the fastest run: RUN notes tongued one after the other, from the first's start to the last's. */
  private strike(note: ScoreNote): void {
    const { whole } = now;
    // A slurred note lengthens the time to the next tongued one; a run is of tongued notes only.
    if (!note.tongued || whole === 0 || note.tonguing !== this.tonguing) this.strikes = 0;
    if (!note.tongued || whole === 0) return;
    this.tonguing = note.tonguing;
    if (this.strikes < RUN - 1) {
      struck[this.strikes++] = whole;
      return;
    }
    let sum = 0;
    for (const each of struck) sum += each;
    for (let i = 1; i < RUN - 1; i++) struck[i - 1] = struck[i]!;
    struck[RUN - 2] = whole;
    const perWhole = (RUN - 1) / sum;
    this.tongue ??= { ...SILENT.tongue };
    if (perWhole > this.tongue[note.tonguing]) this.tongue[note.tonguing] = perWhole;
  }
}

/** Most notes have no mark at all. */
function hasFermata({ marks }: ScoreNote): boolean {
  return marks.length > 0 && marks.includes("fermata");
}

function isInTime(score: Score): boolean {
  for (const bar of score.bars) if (bar.freeSeconds !== undefined) return false;
  return true;
}

/** A loop: on a list as short as this, the engine's own filling takes several times as long. */
function clear(byPitch: number[]): void {
  for (let i = 0; i < byPitch.length; i++) byPitch[i] = 0;
}

function fromTheTop(byPitch: readonly number[], low: number, high: number): readonly number[] {
  const sums = byPitch.slice(low, high + 1);
  for (let i = sums.length - 2; i >= 0; i--) sums[i]! += sums[i + 1]!;
  return sums;
}

/** Seconds of one time through that lie at or above a MIDI number, in home position, by its notes. */
export function secondsFrom(profile: Profile, midi: number, wholeSeconds: number): number {
  const { low, high, atOrAbove } = profile;
  const whole = atOrAbove[0];
  // Nothing was measured beyond the last number there is.
  const from = Math.min(128, midi);
  if (low === undefined || high === undefined || whole === undefined || from > high) return 0;
  const at = Math.max(0, from - low);
  return whole[at]! * wholeSeconds + (atOrAbove[1]?.[at] ?? 0);
}

/** Seconds of one time through at or above a written MIDI number, moved by half steps; a printed page's as declared. */
export function upperOf(profile: Profile, line: number, semitones: number, wholeSeconds: number): number {
  const { declaredUpper } = profile;
  return declaredUpper === undefined
    ? secondsFrom(profile, line - semitones, wholeSeconds)
    : lasting(declaredUpper, wholeSeconds);
}

/** Load of one time through, moved by half steps: each half step multiplies every frequency alike. */
export function loadOf(
  profile: Profile,
  settings: Settings,
  semitones: number,
  wholeSeconds: number,
): number {
  return lasting(profile.load, wholeSeconds) * 2 ** ((semitones * settings.loadExponent) / 12);
}

/** Written MIDI numbers below which a tenth, a half and nine tenths of the playing time lie. */
export function tessitura(
  profile: Profile,
  semitones: number,
  wholeSeconds: number,
): { readonly low: number; readonly middle: number; readonly high: number } | undefined {
  if (profile.atOrAbove.length === 0) return undefined;
  const above = (midi: number): number => secondsFrom(profile, midi, wholeSeconds);
  const total = above(0);
  if (total === 0) return undefined;
  const at = (part: number): number => {
    let midi = 0;
    // The first pitch at which at least `part` of the time lies at or below.
    while (midi < 127 && total - above(midi + 1) < part * total) midi++;
    return midi + semitones;
  };
  return { low: at(0.1), middle: at(0.5), high: at(0.9) };
}
