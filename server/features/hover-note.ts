import type { Clause, MusicElement } from "../../grammar/tree";
import { homePlacement, nearestShift } from "../days/placement";
import { hertz, soundingMidi } from "../music/frequency";
import type { Instrument } from "../music/instrument";
import { fifthsOf, type Key, keyName, parseTonic, tonicClass } from "../music/key";
import { midiOf, type Pitch, parsePitch, pitchFromMidi, pitchSign, spokenPitch } from "../music/pitch";
import { toNumber, valueName, valuesName } from "../music/rhythm";
import { centsOf, needsThirdSlide, partialMidi, partialsOf } from "../music/valves";
import { named } from "../output/explained-exercise";
import { counted, plainNumber } from "../output/numbers";
import type { Exercise } from "../plan/exercise";
import type { Plan } from "../plan/plan";
import type { Player } from "../plan/player";
import type { ScoreNote } from "../plan/score";
import { instrumentOf, lyingFor, profileFor } from "./exercise-reach";
import type { ShownText } from "./shown-text";

/** A written note: where it is, how it sounds, how it is fingered, how it lies. */
export function pitchText(plan: Plan, pitch: Pitch, players: readonly Player[]): readonly ShownText[] {
  const instrument = instrumentOf(players);
  const sign = pitchSign(pitch);
  const spoken = spokenPitch(pitch);
  const midi = midiOf(pitch);
  const sounding = soundingMidi(midi, instrument);
  const sounds = pitchFromMidi(sounding, true);
  const frequency = Math.round(hertz(sounding, plan.settings.tuning) * 10) / 10;
  return [
    {
      heading: sign === spoken ? sign : `${sign}: ${spoken}`,
      lines: [
        `sounds ${pitchSign(sounds)} on the ${instrument.name}, ${frequency} Hz`,
        ...fingeringLines(midi, instrument),
      ],
    },
  ];
}

function fingeringLines(midi: number, instrument: Instrument): readonly string[] {
  const [home, ...others] = partialsOf(midi, instrument);
  if (home === undefined) return ["the instrument has no such note"];
  const cents = Math.round(centsOf(home.partial, home.combination, instrument));
  const tuning = cents === 0 ? "in tune" : `about ${Math.abs(cents)} cents ${cents > 0 ? "sharp" : "flat"}`;
  const lines = [
    `partial ${home.partial}, ${valves(home.combination.name)}, ${tuning}${needsThirdSlide(midi, instrument) ? ", third slide out" : ""}`,
  ];
  if (others.length > 0) {
    lines.push(`also ${others.map((each) => valves(each.combination.name)).join(", ")}`);
  }
  return lines;
}

function valves(name: string): string {
  return name === "0" ? "open" : name.length === 1 ? `valve ${name}` : `valves ${name}`;
}

/** A note inside music, however it is written; the score knows what a degree means. */
export function noteText(
  plan: Plan,
  exercise: Exercise | undefined,
  element: MusicElement,
  players: readonly Player[],
): readonly ShownText[] {
  const pitch = pitchOf(exercise, element, instrumentOf(players));
  return pitch === undefined ? [] : pitchText(plan, pitch, players);
}

function pitchOf(
  exercise: Exercise | undefined,
  element: MusicElement,
  instrument: Instrument,
): Pitch | undefined {
  switch (element.kind) {
    case "pitch":
      return parsePitch(element.text);
    case "partial": {
      const open = instrument.combinations[0];
      return open === undefined || !instrument.partials.includes(element.partial)
        ? undefined
        : pitchFromMidi(partialMidi(element.partial, open, instrument), true);
    }
    case "degree":
      return noteAt(exercise, element)?.pitch;
    default:
      return undefined;
  }
}

function noteAt(exercise: Exercise | undefined, { span }: MusicElement): ScoreNote | undefined {
  const content = exercise?.content;
  if (content?.kind !== "notes") return undefined;
  for (const bar of content.score.bars) {
    for (const event of bar.events) {
      if (event.kind === "note" && event.span.start === span.start) return event;
    }
  }
  return undefined;
}

/** A key: its signature, and how the exercise lies in it. */
export function keyTextShown(
  plan: Plan,
  exercise: Exercise | undefined,
  tonicText: string,
  players: readonly Player[],
): readonly ShownText[] {
  const tonic = parseTonic(tonicText);
  const content = exercise?.content;
  const home = content?.kind === "notes" ? content.key : undefined;
  if (tonic === undefined) return [];
  const key: Key = { ...tonic, mode: home?.mode ?? "major" };
  const lines = [signature(key)];
  if (exercise !== undefined && home !== undefined) {
    const { low, high } = profileFor(plan, exercise, players);
    const semitones = nearestShift(home, key);
    if (low !== undefined && high !== undefined) {
      const placement = { ...homePlacement(exercise, instrumentOf(players)), semitones, key };
      const { lies, player } = lyingFor(low + semitones, high + semitones, players);
      lines.push(
        `“${exercise.name}” goes from ${named(low + semitones, placement)} to ${named(high + semitones, placement)}`,
        player === undefined ? lies : `${lies} for ${player.name}`,
      );
      if (tonicClass(key) === tonicClass(home)) lines.push("its home key");
    }
  }
  return [{ heading: keyName(key), lines }];
}

function signature(key: Key): string {
  const fifths = fifthsOf(key);
  if (fifths === 0) return "no sharps or flats";
  return fifths > 0 ? counted(fifths, "sharp") : counted(-fifths, "flat");
}

/** A tempo: what it makes of the exercise's quickest notes. */
export function tempoText(
  exercise: Exercise | undefined,
  clause: Extract<Clause, { kind: "tempo" }>["bpm"],
): readonly ShownText[] {
  const { from, to, way } = clause;
  const beat = exercise?.tempo?.beat;
  if (exercise === undefined || beat === undefined) return [];
  const bpms = to === undefined ? [from.value] : [from.value, to.value];
  const quickest = quickestValue(exercise);
  const said = bpms.map(plainNumber).join(way === "choice" ? " or " : " to ");
  const lines: string[] = [];
  if (quickest !== undefined) {
    const speeds = bpms.map((bpm) => ((toNumber(beat) * bpm) / (60 * quickest.number)).toFixed(1));
    const told = [...new Set(speeds)].join(way === "choice" ? " or " : " to ");
    lines.push(`its ${quickest.name} pass at ${told} a second`);
  }
  if (way === "growth") lines.push("growing from the first taught week of the block to the last");
  if (exercise.tempo !== undefined) lines.push(`written at ${plainNumber(exercise.tempo.bpm)}`);
  return [{ heading: `${valueName(beat)} = ${said}`, lines }];
}

function quickestValue({
  content,
}: Exercise): { readonly number: number; readonly name: string } | undefined {
  if (content.kind !== "notes") return undefined;
  let least: ScoreNote | undefined;
  for (const bar of content.score.bars) {
    for (const event of bar.events) {
      if (event.kind !== "note" || toNumber(event.value) === 0) continue;
      if (least === undefined || toNumber(event.value) < toNumber(least.value)) least = event;
    }
  }
  return least === undefined ? undefined : { number: toNumber(least.value), name: valuesName(least.value) };
}
