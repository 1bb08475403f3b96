/** The sheet in time: every note with when it sounds, for whatever plays it. */
import { midiOf } from "../music/pitch";
import { add, toNumber, ZERO } from "../music/rhythm";
import { slurName } from "./joins";
import type { Sheet, SheetBar, SheetEvent, SheetNote } from "./sheet";

/** A stretch of time: one event of a bar, or the pause between two times through. */
export interface Moment {
  /** Undefined in a pause. */
  readonly event: SheetEvent | undefined;
  readonly bar: SheetBar;
  /** Whether the bar begins here. */
  readonly opensBar: boolean;
  /** As notated, in quarters: what a fermata or a free bar does is in the seconds alone. */
  readonly quarters: number;
  readonly seconds: number;
}

/** The seconds a whole note lasts at the sheet's tempo. */
export function wholeSeconds({ tempo }: Sheet): number {
  return 60 / (tempo.bpm * toNumber(tempo.beat));
}

/** The sheet from its first moment to its last, repeats and pauses played out. */
export function playedOut(sheet: Sheet): readonly Moment[] {
  const whole = wholeSeconds(sheet);
  const moments: Moment[] = [];
  for (const index of sheet.order) {
    const bar = sheet.bars[index];
    if (bar === undefined) continue;
    const length = toNumber(bar.length);
    // In a free bar the written values share out its seconds.
    const pace = bar.freeSeconds === undefined || length === 0 ? whole : bar.freeSeconds / length;
    let onset = ZERO;
    bar.events.forEach((event, at) => {
      const from = 4 * toNumber(onset);
      onset = add(onset, event.value);
      const stands =
        event.kind === "note" && event.marks.includes("fermata") && bar.freeSeconds === undefined;
      moments.push({
        event,
        bar,
        opensBar: at === 0,
        quarters: 4 * toNumber(onset) - from,
        seconds: toNumber(event.value) * pace * (stands ? sheet.fermata : 1),
      });
    });
    if (bar.pause > 0) {
      const quarters = Math.max(1, Math.round((bar.pause * 4) / whole));
      moments.push({ event: undefined, bar, opensBar: false, quarters, seconds: bar.pause });
    }
  }
  return moments;
}

/** A note as it sounds: ties joined. */
export interface PlayedNote {
  /** The first of the notes tied together. */
  readonly note: SheetNote;
  /** The moment it starts in and the last it sounds in, counted from 0. */
  readonly first: number;
  readonly last: number;
  /** How much of its last moment it sounds, 0 to 1. */
  readonly share: number;
  /** Written MIDI number. */
  readonly midi: number;
}

/** How much of its value a note sounds where it is not joined to the next. Common practice, no source. */
const PLAIN = 0.9;
const STACCATO = 0.5;
const MARCATO = 0.75;
/** The most where a breath follows. */
const BEFORE_BREATH = 0.85;

/** The notes that are struck or slurred to, in order. */
export function playedNotes(moments: readonly Moment[]): readonly PlayedNote[] {
  const notes: PlayedNote[] = [];
  let open: { note: SheetNote; first: number; midi: number } | undefined;
  moments.forEach(({ event }, index) => {
    if (event?.kind !== "note") return;
    const midi = midiOf(event.pitch);
    const next = moments[index + 1]?.event;
    // After a repeat's last ending a tie may lead from another note: then it is struck.
    if (!event.tied || open === undefined || open.midi !== midi) open = { note: event, first: index, midi };
    const goesOn = next?.kind === "note" && next.tied && midiOf(next.pitch) === midi;
    if (goesOn) return;
    notes.push({ ...open, last: index, share: shareOf(event, next) });
    open = undefined;
  });
  return notes;
}

function shareOf(note: SheetNote, next: SheetEvent | undefined): number {
  const slur = slurName(note);
  if (next?.kind === "note" && slur !== undefined && slurName(next) === slur) return 1;
  const share = note.marks.includes("staccato")
    ? STACCATO
    : note.marks.includes("marcato")
      ? MARCATO
      : note.marks.includes("tenuto") || note.held
        ? 1
        : PLAIN;
  return note.breath ? Math.min(share, BEFORE_BREATH) : share;
}
