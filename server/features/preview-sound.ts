import { hertz, soundingMidi } from "../music/frequency";
import { tonicClass } from "../music/key";
import { DYNAMICS } from "../music/loudness";
import { toNumber, valueName } from "../music/rhythm";
import { slurName } from "../notation/joins";
import { type Moment, playedNotes, playedOut } from "../notation/played-out";
import type { Sheet } from "../notation/sheet";
import type { SoundParams, SoundView, ToneView } from "../protocol/requests";
import type { Checked } from "../workspace/check-sources";
import { askedSheet, type Paths, TEMPI } from "./music-ask";

/** How loud a mark is, ppp to fff, 1 being full. Even steps; common practice, no source. */
const LOUDNESS: readonly number[] = [0.2, 0.28, 0.36, 0.45, 0.55, 0.66, 0.78, 0.9];

/** A drone lies in the octave from here on, sounding: low enough to stand under the tune (E2 and up). */
const DRONE_FROM = 40;

/** A phrase without a breath or a rest is taken for one up to here; then it ends with its bar. Seconds. */
const LONGEST_PHRASE = 20;

/** A stretch of moments that is sounded at once, and where it begins on the clock. */
interface Stretch {
  readonly from: number;
  readonly to: number;
  readonly at: number;
  readonly seconds: number;
  readonly yours: boolean;
}

/** Some music in time, as a page sounds it. Undefined for what has no notes. */
export function previewSound(checked: Checked, params: SoundParams, paths: Paths): SoundView | undefined {
  const asked = askedSheet(checked, params.music, params, paths);
  if (asked?.sheet === undefined) return undefined;
  const { sheet, exercise, plan } = asked;
  const moments = playedOut(sheet);
  const starts = startsOf(moments);
  const countIn = params.countIn ? countInOf(sheet) : [];
  const begins = countIn.length * beatSeconds(sheet);
  const stretches = stretchesOf(moments, starts, begins, params.turns);
  const last = stretches.at(-1);
  const pitch = (midi: number): number =>
    hertz(params.pitch === "written" ? midi : soundingMidi(midi, sheet.instrument), plan.settings.tuning);
  const own = params.music.bpm ?? exercise.tempo?.bpm ?? sheet.tempo.bpm;
  return {
    seconds: last === undefined ? begins : last.at + last.seconds,
    tones: tonesOf(moments, starts, stretches, pitch),
    steps: stepsOf(moments, starts, stretches),
    clicks: [...countIn, ...(params.metronome ? clicksOf(sheet, moments, starts, stretches) : [])],
    drone: params.drone ? droneOf(sheet, pitch) : [],
    tempo: { beat: valueName(sheet.tempo.beat), bpm: sheet.tempo.bpm, own, ...TEMPI },
  };
}

function beatSeconds({ tempo }: Sheet): number {
  return 60 / tempo.bpm;
}

/** When each moment starts, and the end, in seconds from the first. */
function startsOf(moments: readonly Moment[]): readonly number[] {
  const starts = [0];
  for (const { seconds } of moments) starts.push((starts.at(-1) ?? 0) + seconds);
  return starts;
}

/** Beats of one bar before the music, as many as fit; of a bar without a meter four. */
function countInOf(sheet: Sheet): SoundView["clicks"] {
  const meter = sheet.bars.find((bar) => !bar.pickup)?.meter;
  const beats =
    meter === undefined ? 4 : Math.max(1, Math.round(toNumber(meter) / toNumber(sheet.tempo.beat)));
  return Array.from({ length: beats }, (_, beat) => ({ at: beat * beatSeconds(sheet), strong: beat === 0 }));
}

/** The whole at once, or phrase by phrase with a silence as long after each. */
function stretchesOf(
  moments: readonly Moment[],
  starts: readonly number[],
  begins: number,
  turns: boolean,
): readonly Stretch[] {
  const time = (index: number): number => starts[index] ?? 0;
  if (!turns)
    return [{ from: 0, to: moments.length, at: begins, seconds: time(moments.length), yours: false }];
  const stretches: Stretch[] = [];
  let at = begins;
  for (const [from, to] of phrasesOf(moments, starts)) {
    const seconds = time(to) - time(from);
    for (const yours of [false, true]) {
      stretches.push({ from, to, at, seconds, yours });
      at += seconds;
    }
  }
  return stretches;
}

/** Phrases end where a breath is taken, with the rest that follows notes, and where the exercise begins anew. */
function phrasesOf(
  moments: readonly Moment[],
  starts: readonly number[],
): readonly (readonly [number, number])[] {
  const phrases: (readonly [number, number])[] = [];
  let from = 0;
  let sounded = false;
  moments.forEach(({ event }, index) => {
    if (event?.kind === "note") sounded = true;
    const next = moments[index + 1];
    const resting = event?.kind !== "note" && next?.event?.kind === "note";
    const long = next?.opensBar === true && (starts[index + 1] ?? 0) - (starts[from] ?? 0) >= LONGEST_PHRASE;
    const ends = next === undefined || (sounded && (event?.breath === true || resting || long));
    // A rest after a breath belongs to the phrase before it.
    if (!ends || (next !== undefined && next.event?.kind !== "note")) return;
    phrases.push([from, index + 1]);
    from = index + 1;
    sounded = false;
  });
  return phrases;
}

function tonesOf(
  moments: readonly Moment[],
  starts: readonly number[],
  stretches: readonly Stretch[],
  pitch: (midi: number) => number,
): readonly ToneView[] {
  const notes = playedNotes(moments);
  const time = (index: number): number => starts[index] ?? 0;
  const tones: ToneView[] = [];
  for (const stretch of stretches) {
    if (stretch.yours) continue;
    const shift = stretch.at - time(stretch.from);
    notes.forEach((played, index) => {
      if (played.first < stretch.from || played.first >= stretch.to) return;
      const { note } = played;
      const before = notes[index - 1];
      const slur = slurName(note);
      const from = time(played.last);
      tones.push({
        at: time(played.first) + shift,
        until: Math.min(
          from + (time(played.last + 1) - from) * played.share + shift,
          stretch.at + stretch.seconds,
        ),
        hz: pitch(played.midi),
        loud: LOUDNESS[DYNAMICS.indexOf(note.dynamic)] ?? 0.5,
        joined:
          slur !== undefined &&
          before !== undefined &&
          slurName(before.note) === slur &&
          before.last + 1 === played.first,
        accent: note.marks.includes("accent") || note.marks.includes("marcato"),
        bent: note.bend > 0 ? pitch(played.midi - note.bend) : undefined,
      });
    });
  }
  return tones;
}

function stepsOf(
  moments: readonly Moment[],
  starts: readonly number[],
  stretches: readonly Stretch[],
): SoundView["steps"] {
  return stretches.flatMap(({ from, to, at, yours }) =>
    moments.slice(from, to).flatMap(({ event, seconds }, index) => {
      if (event === undefined) return [];
      const begins = at + (starts[from + index] ?? 0) - (starts[from] ?? 0);
      return [{ event: event.id, at: begins, until: begins + seconds, yours }];
    }),
  );
}

/** A click on each beat of each bar in time; the first of a bar is the stronger. */
function clicksOf(
  sheet: Sheet,
  moments: readonly Moment[],
  starts: readonly number[],
  stretches: readonly Stretch[],
): SoundView["clicks"] {
  const beat = beatSeconds(sheet);
  const clicks: { readonly at: number; readonly strong: boolean }[] = [];
  for (const { from, to, at } of stretches) {
    const zero = starts[from] ?? 0;
    for (let index = from; index < to; index++) {
      const moment = moments[index];
      if (moment === undefined || (index !== from && !moment.opensBar)) continue;
      // The bar's moments up to where the next one opens, or the stretch ends.
      let end = index + 1;
      while (end < to && moments[end]?.opensBar !== true && moments[end]?.event !== undefined) end++;
      if (moment.bar.freeSeconds !== undefined || moment.event === undefined) continue;
      const [start, stop] = [(starts[index] ?? 0) - zero, (starts[end] ?? 0) - zero];
      // A pick-up is counted from the bar line that it leads to.
      const lead = moment.bar.pickup ? (stop - start) % beat : 0;
      for (let when = start + lead, count = 0; when < stop - 1e-6; when += beat, count++) {
        clicks.push({ at: at + when, strong: count === 0 && moment.opensBar && !moment.bar.pickup });
      }
    }
  }
  return clicks;
}

/** The tonic of the first key, low, and an octave above it; of partials the open fundamental's octave. */
function droneOf(sheet: Sheet, pitch: (midi: number) => number): readonly number[] {
  const key = sheet.bars[0]?.key;
  const first = sheet.bars.flatMap((bar) => bar.events).find((event) => event.kind === "note");
  const tonic =
    key === undefined
      ? sheet.instrument.openFundamental - (first?.fingered?.semitones ?? 0)
      : tonicClass(key);
  const low = DRONE_FROM + ((((tonic - DRONE_FROM) % 12) + 12) % 12);
  return [pitch(low), pitch(low + 12)];
}
