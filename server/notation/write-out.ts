/** From an exercise to its sheet. */
import { homePlacement, movedPlacement, type Placement, placementName } from "../days/placement";
import type { Combination } from "../music/combination";
import type { Instrument } from "../music/instrument";
import { byOctaves, type Interval, transpose, unison } from "../music/interval";
import { degreePitch, type Key, keyShift, respelled, tonicAt } from "../music/key";
import type { Dynamic } from "../music/loudness";
import { midiOf, type Pitch, pitchFromMidi, pitchOn, staffPosition } from "../music/pitch";
import { compare, toNumber } from "../music/rhythm";
import { commonCombination, fingering, partialMidi } from "../music/valves";
import { articulated } from "../plan/articulate";
import type { Articulation, Content, Exercise, Rest, Tempo } from "../plan/exercise";
import type { Bar, Score, ScoreNote } from "../plan/score";
import type { Settings } from "../plan/settings";
import { lasting, profileOf } from "../profile/profile";
import type { Sheet, SheetBar, SheetEvent } from "./sheet";

export interface SheetAsk {
  readonly exercise: Exercise;
  readonly instrument: Instrument;
  readonly settings: Settings;
  /** One after the other; without any, home, or for partials all the instrument's combinations. */
  readonly placements?: readonly Placement[] | undefined;
  /** Another tempo than the exercise's own. */
  readonly tempo?: Tempo | undefined;
  readonly articulation?: Articulation | undefined;
  readonly dynamic?: Dynamic | undefined;
  readonly rest?: Rest | undefined;
  /** How many cells of a series to write out, where it does not say or fewer were asked for. */
  readonly cells?: number | undefined;
}

/** The notes an exercise has, or why it has none: another kind of work, or nothing that could be read. */
export type Written =
  | { readonly kind: "sheet"; readonly sheet: Sheet }
  | { readonly kind: "printed" | "activity" | "empty" };

/** Cells of a series without a count: down or up once through the twelve half steps, or to the end of the range. */
const MOST_CELLS = 12;

/** An exercise as it stands on paper. Printed music and work without notes have no sheet. */
export function writtenOut(ask: SheetAsk): Written {
  const { exercise, instrument, settings } = ask;
  const { content } = exercise;
  if (content.kind !== "notes") return { kind: content.kind };
  if (content.score.bars.length === 0) return { kind: "empty" };
  const tempo = ask.tempo ?? exercise.tempo ?? { beat: { num: 1, den: 4 }, bpm: 60 };
  const articulation = ask.articulation ?? exercise.articulation;
  const writer = new Writer(ask, content, articulated(content.score, articulation));
  const passes = passesOf(ask, content);
  const wholeSeconds = 60 / (tempo.bpm * toNumber(tempo.beat));
  const profile = profileOf({ exercise, instrument, settings, articulation, dynamic: ask.dynamic });
  const played = lasting(profile.playing, wholeSeconds) + lasting(profile.resting, wholeSeconds);
  const pause = pauseAfter(ask.rest ?? exercise.rest, played, settings);
  passes.forEach((pass, index) => {
    const name = passes.length > 1 ? placementName(pass) : undefined;
    writer.pass(pass, name === "" ? undefined : name, index < passes.length - 1 ? pause : 0);
  });
  return {
    kind: "sheet",
    sheet: {
      title: exercise.name,
      aims: exercise.aims,
      instrument,
      tempo,
      fermata: settings.fermata,
      bars: writer.bars,
      order: writer.order,
    },
  };
}

function pauseAfter(rest: Rest, played: number, settings: Settings): number {
  const asked = rest.kind === "equal" ? played : rest.kind === "time" ? rest.seconds : 0;
  return Math.max(asked, settings.breathBetween);
}

/** Every place the exercise is played through once: keys, combinations, cells. */
function passesOf(ask: SheetAsk, content: Extract<Content, { kind: "notes" }>): readonly Placement[] {
  const { exercise, instrument } = ask;
  const home = homePlacement(exercise, instrument);
  const everyCombination = instrument.combinations.map((combination) => ({
    ...home,
    combination,
    semitones: 0 - combination.semitones,
  }));
  const asked = ask.placements ?? (content.by === "partials" ? everyCombination : [home]);
  const { series } = exercise;
  if (series === undefined) return asked;
  const cells = Math.min(ask.cells ?? series.cells ?? MOST_CELLS, series.cells ?? Number.MAX_SAFE_INTEGER);
  return asked.flatMap((from) => {
    const passes: Placement[] = [from];
    while (passes.length < cells) {
      const next = movedPlacement(from, series.semitones * passes.length);
      // Partials have a combination for each half step, and no more.
      const lower = instrument.combinations.find((each) => each.semitones === 0 - next.semitones);
      if (content.by === "partials" && lower === undefined) break;
      if (series.cells === undefined && !fits(ask, next)) break;
      passes.push(content.by === "partials" ? { ...next, combination: lower } : next);
    }
    return passes;
  });
}

function fits({ exercise, instrument, settings }: SheetAsk, { semitones, mode }: Placement): boolean {
  const { low, high } = profileOf({ exercise, instrument, settings, mode });
  if (low === undefined || high === undefined) return true;
  return low + semitones >= midiOf(instrument.lowest) && high + semitones <= midiOf(instrument.highest);
}

class Writer {
  readonly bars: SheetBar[] = [];
  readonly order: number[] = [];
  private ids = 0;
  private repeats = 0;
  private slurs = 0;

  constructor(
    private readonly ask: SheetAsk,
    private readonly content: Extract<Content, { kind: "notes" }>,
    private readonly score: Score,
  ) {}

  /** One time through at a placement, joined to what is there. */
  pass(placement: Placement, name: string | undefined, pause: number): void {
    const from = this.bars.length;
    const fingered = this.combinationsAt(placement);
    let repeats = 0;
    let slurs = 0;
    const last = this.score.bars.length - 1;
    this.score.bars.forEach((bar, index) => {
      repeats = Math.max(repeats, bar.repeat + 1);
      const { key, by } = this.moved(bar, placement);
      const events = bar.events.map((event): SheetEvent => {
        const id = this.ids++;
        if (event.kind === "rest") return { ...event, id };
        slurs = Math.max(slurs, (event.slur ?? -1) + 1, (event.lipSlur ?? -1) + 1);
        const pitch = this.pitchAt(event, bar, placement, by);
        const midi = midiOf(pitch);
        const { kind, partial, value, tuplet, breath, span } = event;
        return {
          ...event.manner,
          kind,
          partial,
          value,
          tuplet,
          breath,
          span,
          id,
          pitch,
          dynamic: this.ask.dynamic ?? event.dynamic,
          hairpin: this.ask.dynamic === undefined ? event.hairpin : undefined,
          marks: this.marksOf(event),
          slur: event.slur === undefined ? undefined : event.slur + this.slurs,
          lipSlur: event.lipSlur === undefined ? undefined : event.lipSlur + this.slurs,
          fingered: fingered.get(event.lipSlur) ?? this.fingeredAlone(midi, placement),
        };
      });
      this.bars.push({
        events,
        length: bar.length,
        meter: bar.meter,
        freeSeconds: bar.freeSeconds,
        key,
        role: bar.role,
        repeat: bar.repeat < 0 ? -1 : bar.repeat + this.repeats,
        pickup: bar.pickup,
        opens: index === 0 ? name : undefined,
        pause: index === last ? pause : 0,
      });
    });
    this.repeats += repeats;
    this.slurs += slurs;
    this.order.push(...this.score.order.map((index) => index + from));
  }

  /** The key of a bar where it is played, and how far its notes move to be spelled in it. */
  private moved(bar: Bar, placement: Placement): { readonly key: Key | undefined; readonly by: Interval } {
    const home = this.content.key;
    if (bar.key === undefined || home === undefined) return { key: undefined, by: unison };
    const { semitones } = placement;
    const main = placement.key ?? home;
    // A change of key inside the exercise lies as far from the main key as it does at home.
    const tonic = transpose(
      { step: main.step, alter: main.alter, octave: 4 },
      keyShift(home, { ...bar.key, mode: home.mode }),
    );
    const mode = bar.key.mode === home.mode ? main.mode : bar.key.mode;
    const key = respelled({ step: tonic.step, alter: tonic.alter, mode });
    const up = keyShift(bar.key, key);
    return { key, by: byOctaves(up, Math.round((semitones - up.semitones) / 12)) };
  }

  private pitchAt(note: ScoreNote, bar: Bar, placement: Placement, by: Interval): Pitch {
    const { instrument } = this.ask;
    if (note.partial !== undefined) return partialPitch(note.partial, placement, instrument);
    const { mode } = placement;
    const { key, tonicOctave } = this.content;
    if (
      note.degree !== undefined &&
      mode !== undefined &&
      key !== undefined &&
      mode !== key.mode &&
      bar.key !== undefined
    ) {
      const { degree, alter, direction } = note.degree;
      const other = bar.key.mode === key.mode ? { ...bar.key, mode } : bar.key;
      return transpose(degreePitch(other, tonicOctave, degree, alter, direction), by);
    }
    // A note without a pitch could not be read; it stands on the home note, as the profile would have it.
    return transpose(note.pitch ?? instrument.home, by);
  }

  /** An ornament asked of the whole exercise comes on every long enough note that starts. */
  private marksOf(note: ScoreNote): ScoreNote["marks"] {
    const { ornament } = this.ask.exercise;
    if (ornament === undefined || note.tied || compare(note.value, ornament.from) < 0) return note.marks;
    return note.marks.includes(ornament.ornament) ? note.marks : [...note.marks, ornament.ornament];
  }

  /** For each lip slur the combination on which all its notes lie. */
  private combinationsAt(placement: Placement): ReadonlyMap<number | undefined, Combination> {
    const { instrument } = this.ask;
    const midis = new Map<number, number[]>();
    for (const bar of this.score.bars) {
      const { by } = this.moved(bar, placement);
      for (const event of bar.events) {
        if (event.kind === "rest" || event.lipSlur === undefined || event.partial !== undefined) continue;
        const known = midis.get(event.lipSlur) ?? [];
        known.push(midiOf(this.pitchAt(event, bar, placement, by)));
        midis.set(event.lipSlur, known);
      }
    }
    const found = new Map<number | undefined, Combination>();
    for (const [slur, notes] of midis) {
      const common = commonCombination(notes, instrument)[0];
      if (common !== undefined) found.set(slur, common);
    }
    return found;
  }

  private fingeredAlone(midi: number, placement: Placement): Combination | undefined {
    return placement.combination ?? fingering(midi, this.ask.instrument)?.combination;
  }
}

/** A partial spelled as in the major key of the combination's second partial: A, C♯, E on first and second. */
function partialPitch(partial: number, placement: Placement, instrument: Instrument): Pitch {
  const { combination } = placement;
  const open = instrument.combinations[0] ?? combination;
  if (open === undefined) return pitchFromMidi(instrument.openFundamental, true);
  const onOpen = pitchFromMidi(partialMidi(partial, open, instrument), true);
  const lowered = combination?.semitones ?? 0;
  if (lowered === 0) return onOpen;
  const home: Key = { ...pitchFromMidi(instrument.openFundamental, true), mode: "major" };
  const key = tonicAt(home, 0 - lowered);
  const down = byOctaves(keyShift(home, key), -1);
  return pitchOn(staffPosition(onOpen) + down.steps, midiOf(onOpen) - lowered);
}
