import { tonicClass } from "../music/key";
import { midiOf } from "../music/pitch";
import { type Fraction, fractionText } from "../music/rhythm";
import type { Score, ScoreEvent } from "../plan/score";

/** The note that pitches are told from: its MIDI number and its step, counted on through the octaves. */
export interface Origin {
  readonly midi: number;
  readonly step: number;
}

/** Pitches told as they are written. */
export const AS_WRITTEN: Origin = { midi: 0, step: 0 };

/** The first note of the music, so that music moved as a whole can be seen to be the same. */
export function firstNote(score: Score): Origin {
  for (const bar of score.bars) {
    for (const event of bar.events) {
      if (event.kind === "note" && event.pitch !== undefined) {
        return { midi: midiOf(event.pitch), step: event.pitch.octave * 7 + event.pitch.step };
      }
    }
  }
  return AS_WRITTEN;
}

/**
 * Each bar of a score as one text: bars that read alike for a musician give the same text, wherever they stand
 * in the file and however they are laid out.
 */
export function barSigns(score: Score, from: Origin): readonly string[] {
  const signs: string[] = [];
  let before: ScoreEvent | undefined;
  for (const bar of score.bars) {
    const parts: string[] = [bar.role.kind === "ending" ? `ending ${bar.role.number}` : bar.role.kind];
    // Whether the repeat is the same as that of the bar before tells where a repeat begins.
    const last = score.bars[signs.length - 1];
    if (bar.repeat >= 0 && last?.repeat !== bar.repeat) parts.push("begins");
    if (bar.pickup) parts.push("pickup");
    if (bar.meter !== undefined) parts.push(fractionText(bar.meter));
    if (bar.freeSeconds !== undefined) parts.push(`free ${bar.freeSeconds}`);
    if (bar.key !== undefined)
      parts.push(`${(((tonicClass(bar.key) - from.midi) % 12) + 12) % 12} ${bar.key.mode}`);
    for (const event of bar.events) {
      parts.push(eventSign(event, before, from));
      before = event;
    }
    signs.push(parts.join(" | "));
  }
  return signs;
}

function eventSign(event: ScoreEvent, before: ScoreEvent | undefined, from: Origin): string {
  const tuplet =
    event.tuplet === undefined
      ? ""
      : `${event.tuplet.notes}:${event.tuplet.inTimeOf}${event.tuplet === before?.tuplet ? "+" : ""}`;
  const length = `${valueSign(event.value)}${tuplet}${event.breath ? "'" : ""}`;
  if (event.kind === "rest") return `rest ${length}`;
  const { pitch, partial } = event;
  const where =
    pitch === undefined
      ? `partial ${partial}`
      : `${midiOf(pitch) - from.midi}/${pitch.octave * 7 + pitch.step - from.step}`;
  const joined = before?.kind === "note" ? before : undefined;
  const flags = [
    event.slur === undefined ? "" : event.slur === joined?.slur ? "slurred on" : "slur",
    event.lipSlur === undefined ? "" : event.lipSlur === joined?.lipSlur ? "lip on" : "lip",
    event.tied ? "tied" : "",
    event.held ? "held" : "",
    event.bend === 0 ? "" : `bend ${event.bend}`,
    event.hairpin ?? "",
    event.tongued ? event.tonguing : "",
    event.attack,
    event.dynamic,
    ...event.marks,
  ];
  return `${where} ${length} ${flags.filter((flag) => flag !== "").join(" ")}`;
}

function valueSign(value: Fraction): string {
  return `${value.num}/${value.den}`;
}
