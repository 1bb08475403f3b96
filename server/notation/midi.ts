/**
 * The sheet as a Standard MIDI File (format 1): a track of tempo, meter and key, and one of notes as they
 * sound. 480 ticks to the quarter.
 */
import { type MidiEvent, writeMidi } from "midi-file";
import { fifthsOf, isMinor, type Key } from "../music/key";
import { DYNAMICS, type Dynamic } from "../music/loudness";
import type { Fraction } from "../music/rhythm";
import { type Moment, type PlayedNote, playedNotes, playedOut } from "./played-out";
import type { Sheet } from "./sheet";

const TICKS = 480;

/** The longest quarter a file can say: three bytes of microseconds (Standard MIDI Files 1.0, "Set Tempo"). */
const LONGEST_QUARTER = 0xffffff;

/** Velocities of the dynamic marks, ppp to fff: the middle at mezzo-forte, even steps. Common practice, no source. */
const VELOCITIES: readonly number[] = [24, 38, 52, 66, 80, 94, 108, 122];
/** How much louder an accent is. Common practice, no source. */
const ACCENT = 12;

/** Half steps that the pitch wheel reaches, where notes are bent. */
const WHEEL = 12;
/** Steps in which a bend goes down and comes back. */
const BEND_STEPS = 8;

interface Timed {
  readonly tick: number;
  readonly event: WithoutTime;
}

type WithoutTime = MidiEvent extends infer E ? (E extends MidiEvent ? Omit<E, "deltaTime"> : never) : never;

/** The bytes of the file. Equal sheets give equal bytes. */
export function midiOf(sheet: Sheet): Uint8Array {
  const moments = playedOut(sheet);
  const conductor: Timed[] = [
    { tick: 0, event: { meta: true, type: "trackName", text: asBytes(sheet.title) } },
  ];
  const starts = timeline(sheet, moments, conductor);
  const end = starts[moments.length] ?? 0;
  const name = asBytes(sheet.instrument.name);
  const played: Timed[] = [
    { tick: 0, event: { meta: true, type: "trackName", text: name } },
    {
      tick: 0,
      event: { type: "programChange", channel: 0, programNumber: sheet.instrument.midiProgram - 1 },
    },
    ...noteEvents(sheet, moments, starts),
  ];
  return Uint8Array.from(
    writeMidi({
      header: { format: 1, numTracks: 2, ticksPerBeat: TICKS },
      tracks: [track(conductor, end), track(played, end)],
    }),
  );
}

/** Writes tempo, meter and key where they change, and gives the tick at which each moment starts, and the end. */
function timeline(sheet: Sheet, moments: readonly Moment[], events: Timed[]): readonly number[] {
  const starts: number[] = [0];
  let tick = 0;
  // Ticks are rounded from the start of the bar, so that roundings do not add up.
  let barTick = 0;
  let barQuarters = 0;
  let tempo = -1;
  let key: Key | undefined;
  let meter: Fraction | undefined;
  for (const { bar, opensBar, quarters, seconds, event } of moments) {
    if (opensBar || event === undefined) {
      barTick = tick;
      barQuarters = 0;
    }
    if (opensBar && bar.key !== undefined && (key === undefined || fifthsOf(bar.key) !== fifthsOf(key))) {
      key = bar.key;
      events.push({ tick, event: keyEvent(key, sheet) });
    }
    if (
      opensBar &&
      bar.meter !== undefined &&
      (bar.meter.num !== meter?.num || bar.meter.den !== meter.den)
    ) {
      meter = bar.meter;
      events.push({ tick, event: meterEvent(meter) });
    }
    const quarter = (seconds * 1e6) / quarters;
    // A quarter longer than a file can say is spread over several.
    const times = Math.ceil(quarter / LONGEST_QUARTER);
    const microseconds = Math.round(quarter / times);
    if (microseconds !== tempo) {
      tempo = microseconds;
      events.push({ tick, event: { meta: true, type: "setTempo", microsecondsPerBeat: microseconds } });
    }
    barQuarters += quarters * times;
    tick = barTick + Math.round(barQuarters * TICKS);
    starts.push(tick);
  }
  return starts;
}

/** The key that sounds: the written one moved by the instrument, at most seven accidentals. */
function keyEvent(key: Key, { instrument }: Sheet): WithoutTime {
  const { steps, semitones } = instrument.transposition;
  // On the line of fifths a half step is seven, a step of the staff minus twelve.
  let fifths = fifthsOf(key) + 7 * semitones - 12 * steps;
  if (fifths > 7) fifths -= 12;
  if (fifths < -7) fifths += 12;
  return { meta: true, type: "keySignature", key: fifths, scale: isMinor(key) ? 1 : 0 };
}

function meterEvent({ num, den }: Fraction): WithoutTime {
  // A click for each quarter, or in meters of three eighths for each dotted quarter; 24 clocks are a quarter.
  const metronome = den === 8 && num % 3 === 0 ? 36 : 24;
  return { meta: true, type: "timeSignature", numerator: num, denominator: den, metronome, thirtyseconds: 8 };
}

function noteEvents(sheet: Sheet, moments: readonly Moment[], starts: readonly number[]): readonly Timed[] {
  const events: Timed[] = [];
  const notes = playedNotes(moments);
  const loudness = velocities(notes, starts);
  if (notes.some(({ note }) => note.bend > 0)) events.push(...wheelRange());
  notes.forEach((played, index) => {
    const noteNumber = played.midi + sheet.instrument.transposition.semitones;
    // Degrees may run off any keyboard; a file has no sign for such a note.
    if (noteNumber < 0 || noteNumber > 127) return;
    const on = starts[played.first] ?? 0;
    const from = starts[played.last] ?? on;
    const until = starts[played.last + 1] ?? from;
    const off = Math.max(on + 1, from + Math.round((until - from) * played.share));
    const accent = played.note.marks.includes("accent") || played.note.marks.includes("marcato") ? ACCENT : 0;
    const velocity = Math.max(1, Math.min(127, Math.round((loudness[index] ?? 0) + accent)));
    events.push(
      { tick: on, event: { type: "noteOn", channel: 0, noteNumber, velocity } },
      { tick: off, event: { type: "noteOff", channel: 0, noteNumber, velocity: 0 } },
    );
    if (played.note.bend > 0) events.push(...bendEvents(on, off, played.note.bend));
  });
  return events;
}

function velocityOf(dynamic: Dynamic): number {
  return VELOCITIES[DYNAMICS.indexOf(dynamic)] ?? 0;
}

/** The velocity of each note, led evenly from mark to mark under a hairpin. */
function velocities(notes: readonly PlayedNote[], starts: readonly number[]): readonly number[] {
  const result = notes.map(({ note }) => velocityOf(note.dynamic));
  const tickAt = (index: number): number => starts[notes[index]?.first ?? 0] ?? 0;
  notes.forEach(({ note }, from) => {
    if (note.hairpin === undefined) return;
    let to = from + 1;
    while (
      to < notes.length &&
      notes[to]?.note.dynamic === note.dynamic &&
      notes[to]?.note.hairpin === undefined
    )
      to++;
    const goal = notes[to]?.note.dynamic ?? neighbour(note.dynamic, note.hairpin);
    const start = velocityOf(note.dynamic);
    const span = tickAt(Math.min(to, notes.length - 1)) - tickAt(from);
    for (let index = from; index < to && span > 0; index++) {
      const way = (tickAt(index) - tickAt(from)) / span;
      result[index] = start + (velocityOf(goal) - start) * way;
    }
  });
  return result;
}

/** A hairpin to nowhere goes one mark on. */
function neighbour(dynamic: Dynamic, way: "cresc" | "dim"): Dynamic {
  return DYNAMICS[DYNAMICS.indexOf(dynamic) + (way === "cresc" ? 1 : -1)] ?? dynamic;
}

/** The registered parameter 0, pitch bend sensitivity (MIDI 1.0). */
function wheelRange(): readonly Timed[] {
  return [
    [101, 0],
    [100, 0],
    [6, WHEEL],
    [38, 0],
  ].map(([controllerType = 0, value = 0]) => ({
    tick: 0,
    event: { type: "controller", channel: 0, controllerType, value },
  }));
}

/** Down in the second quarter of the note, back in the last, and at rest when it ends. */
function bendEvents(on: number, off: number, semitones: number): readonly Timed[] {
  const length = off - on;
  const lowest = -Math.round((8192 * semitones) / WHEEL);
  return [0.25, 0.75].flatMap((start) =>
    Array.from({ length: BEND_STEPS }, (_, step): Timed => {
      const way = (step + 1) / BEND_STEPS;
      return {
        tick: on + Math.floor(length * (start + (way * 0.25) / (1 + 1 / length))),
        event: {
          type: "pitchBend",
          channel: 0,
          value: Math.round(lowest * (start < 0.5 ? way : 1 - way)),
        },
      };
    }),
  );
}

/** Events in order of time; at one moment notes end before others begin. */
function track(events: readonly Timed[], end: number): MidiEvent[] {
  const rank = ({ event }: Timed): number => (event.type === "noteOn" ? 2 : event.type === "noteOff" ? 0 : 1);
  const sorted = events.toSorted((a, b) => a.tick - b.tick || rank(a) - rank(b));
  let tick = 0;
  const written = sorted.map(({ tick: at, event }): MidiEvent => {
    const deltaTime = at - tick;
    tick = at;
    return { ...event, deltaTime };
  });
  return [...written, { meta: true, type: "endOfTrack", deltaTime: end - tick }];
}

/** Text as the bytes of UTF-8, one sign each, which is how the writer puts it into a file. */
function asBytes(text: string): string {
  return String.fromCharCode(...new TextEncoder().encode(text.slice(0, 200)));
}
