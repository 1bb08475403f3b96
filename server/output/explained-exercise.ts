import type { Placement } from "../days/placement";
import { movedPlacement, placementName } from "../days/placement";
import type { Instrument } from "../music/instrument";
import { degreePitch, fifthsOf } from "../music/key";
import { midiOf, noteSign, type Pitch, pitchFromMidi, pitchSign, spokenPitch } from "../music/pitch";
import { toNumber, valueName, valuesName } from "../music/rhythm";
import { centsOf, partialMidi, partialsOf } from "../music/valves";
import type { Exercise } from "../plan/exercise";
import type { PitchRange, Player } from "../plan/player";
import type { Settings } from "../plan/settings";
import { lasting, loadOf, type Profile, profileOf, tessitura, upperOf } from "../profile/profile";
import { clockText, counted, plainNumber, secondsText } from "./numbers";
import { safeText, widthOf } from "./safe-text";

export interface ExplainAsk {
  readonly exercise: Exercise;
  readonly settings: Settings;
  readonly instrument: Instrument;
  readonly placement: Placement;
  readonly players: readonly Player[];
}

interface Measured extends ExplainAsk {
  readonly profile: Profile;
  /** Seconds a whole note lasts. */
  readonly wholeSeconds: number;
}

/** Everything that is known of one time through an exercise in one key, for a person to read. */
export function explainedExercise(ask: ExplainAsk): string {
  const { exercise, instrument, settings, placement } = ask;
  const profile = profileOf({ exercise, instrument, settings, mode: placement.mode });
  const { tempo } = exercise;
  const wholeSeconds = tempo === undefined ? 0 : 60 / (tempo.bpm * toNumber(tempo.beat));
  const measured = { ...ask, profile, wholeSeconds };
  const where = placementName(placement);
  const heading = `${safeText(exercise.name)}: ${safeText(exercise.area)}${where === "" ? "" : `, ${where}`}, ${instrument.name}`;
  const rows: (readonly [string, string])[] = [
    ...rangeRows(measured),
    ...durationRows(measured),
    ...loadRows(measured),
    ...fingeringRows(measured),
    ...breathRows(measured),
    ...tongueRows(measured),
  ];
  const parts = [heading, "", ...labelled(rows)];
  for (const player of ask.players) {
    const lines = playerRows(measured, player);
    if (lines.length > 0) parts.push("", `For ${safeText(player.name)}`, ...labelled(lines));
  }
  return parts.join("\n");
}

const LABEL_WIDTH = 12;

function labelled(rows: readonly (readonly [string, string])[]): readonly string[] {
  return rows.map(
    ([label, text]) => `  ${label}${" ".repeat(Math.max(1, LABEL_WIDTH - widthOf(label)))}${text}`,
  );
}

/** A written MIDI number spelled as the key would have it. */
export function spelled(midi: number, placement: Placement): Pitch {
  const flats = placement.key === undefined || fifthsOf(placement.key) < 0;
  return pitchFromMidi(midi, flats);
}

/** A written MIDI number with the word players have for it: `C5 (third-space C)`. */
export function named(midi: number, placement: Placement): string {
  const pitch = spelled(midi, placement);
  const [sign, spoken] = [pitchSign(pitch), spokenPitch(pitch)];
  return sign === spoken ? sign : `${sign} (${spoken})`;
}

function rangeRows({ profile, placement, wholeSeconds }: Measured): readonly (readonly [string, string])[] {
  const { low, high } = profile;
  if (low === undefined || high === undefined) return [];
  const at = placement.semitones;
  const rows: [string, string][] = [
    ["range", `${named(low + at, placement)} to ${named(high + at, placement)}, written`],
  ];
  const lies = tessitura(profile, at, wholeSeconds);
  if (lies !== undefined) {
    const sign = (midi: number): string => pitchSign(spelled(midi, placement));
    rows.push([
      "tessitura",
      `half of the playing at or below ${sign(lies.middle)}, a tenth at or below ${sign(lies.low)}, nine tenths at or below ${sign(lies.high)}`,
    ]);
  }
  return rows;
}

function durationRows({ exercise, profile, wholeSeconds }: Measured): readonly (readonly [string, string])[] {
  const { tempo } = exercise;
  const playing = lasting(profile.playing, wholeSeconds);
  const resting = lasting(profile.resting, wholeSeconds);
  const rows: [string, string][] = [["duration", `${clockText(playing + resting)} once through`]];
  if (tempo !== undefined) {
    const beat = toNumber(tempo.beat);
    const sum = (what: string, whole: number): void => {
      if (whole === 0) return;
      const beats = plainNumber(whole / beat);
      rows.push([
        "",
        `${what} ${beats} ${valuesName(tempo.beat)} × 60 ÷ ${plainNumber(tempo.bpm)} = ${secondsText(whole * wholeSeconds)}`,
      ]);
    };
    sum("playing", profile.playing.whole);
    sum("resting", profile.resting.whole);
    rows.push(["tempo", `${valueName(tempo.beat)} = ${plainNumber(tempo.bpm)}`]);
  }
  const fixed = profile.playing.seconds + profile.resting.seconds;
  if (fixed > 0) rows.push(["", `counted in seconds: ${secondsText(fixed)}`]);
  return rows;
}

function loadRows(measured: Measured): readonly (readonly [string, string])[] {
  const { profile, settings, placement, wholeSeconds, instrument } = measured;
  const load = loadOf(profile, settings, placement.semitones, wholeSeconds);
  if (load === 0) return [];
  const points = load < 0.5 ? "less than 1 point" : counted(Math.round(load), "point");
  return [["load", `${points} (one point is a minute of ${pitchSign(instrument.home)} at mf)`]];
}

/** The different written notes, on their home fingering, lowest first. */
function writtenMidis({ exercise, placement, instrument }: Measured): readonly number[] {
  const { content } = exercise;
  if (content.kind !== "notes") return [];
  const midis = new Set<number>();
  for (const bar of content.score.bars) {
    for (const note of bar.events) {
      if (note.kind !== "note") continue;
      if (note.partial !== undefined) {
        const combination = placement.combination ?? instrument.combinations[0];
        if (combination !== undefined) midis.add(partialMidi(note.partial, combination, instrument));
      } else if (note.degree !== undefined && placement.mode !== undefined && content.key !== undefined) {
        const { degree, alter, direction } = note.degree;
        const key = { ...content.key, mode: placement.mode };
        const pitch = degreePitch(key, content.tonicOctave, degree, alter, direction);
        midis.add(midiOf(pitch) + placement.semitones);
      } else if (note.pitch !== undefined) midis.add(midiOf(note.pitch) + placement.semitones);
    }
  }
  return [...midis].sort((a, b) => a - b);
}

function fingeringRows(measured: Measured): readonly (readonly [string, string])[] {
  const { instrument, placement } = measured;
  return writtenMidis(measured).map((midi, i) => {
    const [home, ...others] = partialsOf(midi, instrument);
    const note = pitchSign(spelled(midi, placement)).padEnd(5);
    const label = i === 0 ? "fingering" : "";
    if (home === undefined) return [label, `${note}the instrument has no such note`] as const;
    const cents = Math.round(centsOf(home.partial, home.combination, instrument));
    const tuning = cents === 0 ? "" : `, about ${Math.abs(cents)} cents ${cents > 0 ? "sharp" : "flat"}`;
    const also = others.map((each) => valves(each.combination.name)).join(", ");
    return [
      label,
      `${note}${valves(home.combination.name)}${tuning}${also === "" ? "" : `; also ${also}`}`,
    ] as const;
  });
}

function valves(name: string): string {
  return name === "0" ? "open" : name;
}

/** Seconds of the phrase that asks the longest breath. */
function longestPhrase({ profile, wholeSeconds }: Measured): { seconds: number; air: number } | undefined {
  let longest: { seconds: number; air: number } | undefined;
  for (const { length, air } of profile.phrases) {
    const asked = lasting(air, wholeSeconds);
    if (longest === undefined || asked > longest.air) {
      longest = { seconds: lasting(length, wholeSeconds), air: asked };
    }
  }
  return longest;
}

function breathRows(measured: Measured): readonly (readonly [string, string])[] {
  const longest = longestPhrase(measured);
  const held = measured.profile.held ? "some tones are held to the end of the breath" : "";
  if (longest === undefined) return held === "" ? [] : [["breath", held]];
  const loudness =
    Math.abs(longest.air - longest.seconds) < 0.05
      ? ""
      : `; at its dynamics it asks as much breath as ${secondsText(longest.air)} at mf`;
  const text = `the longest phrase lasts ${secondsText(longest.seconds)}${loudness}`;
  return [["breath", held === "" ? text : `${text}; ${held}`]];
}

const TONGUINGS = ["single", "double", "triple"] as const;

function tongueRows({ profile, wholeSeconds }: Measured): readonly (readonly [string, string])[] {
  if (wholeSeconds === 0) return [];
  return TONGUINGS.filter((how) => profile.tongue[how] > 0).map((how) => [
    "tongue",
    `${how}: ${speed(profile.tongue[how] / wholeSeconds)}`,
  ]);
}

/** Notes per second, and as musicians say it: sixteenths at so many quarters a minute. */
export function speed(perSecond: number): string {
  return `sixteenths at ${Math.round((perSecond * 60) / 4)} (${(Math.round(perSecond * 10) / 10).toFixed(1)} notes a second)`;
}

function playerRows(measured: Measured, player: Player): readonly (readonly [string, string])[] {
  const { profile, placement, wholeSeconds } = measured;
  const { figures } = player;
  const rows: [string, string][] = [];
  if (figures.upperFrom !== undefined && profile.high !== undefined) {
    const line = midiOf(figures.upperFrom.value);
    const upper = upperOf(profile, line, placement.semitones, wholeSeconds);
    const from = pitchSign(figures.upperFrom.value);
    const how = profile.declaredUpper === undefined ? `from ${from} up` : "as stated for the page";
    rows.push(["upper", `${clockText(upper)} ${how}, once through`]);
  }
  const longest = longestPhrase(measured);
  if (longest !== undefined && figures.breath !== undefined) {
    const breath = figures.breath.value;
    const verdict = longest.air > breath ? "too long a phrase" : "enough";
    rows.push(["breath", `${secondsText(longest.air)} of ${secondsText(breath)}: ${verdict}`]);
  }
  for (const how of TONGUINGS) {
    const limit = figures[how];
    const asked = wholeSeconds === 0 ? 0 : profile.tongue[how] / wholeSeconds;
    if (limit === undefined || asked === 0) continue;
    rows.push([
      "tongue",
      `${how} up to ${speed(limit.value)}: ${asked > limit.value ? "too fast" : "enough"}`,
    ]);
  }
  rows.push(...keyRows(measured, figures.range?.value, figures.limit?.value));
  return rows;
}

function keyRows(
  { profile, exercise, placement }: Measured,
  range: PitchRange | undefined,
  limit: PitchRange | undefined,
): readonly [string, string][] {
  const { low, high } = profile;
  const { content } = exercise;
  if (low === undefined || high === undefined || content.kind !== "notes" || content.key === undefined)
    return [];
  const home: Placement = { ...placement, semitones: 0, key: content.key };
  const fits = (within: PitchRange | undefined, by: number): boolean =>
    within !== undefined && low + by >= midiOf(within.low) && high + by <= midiOf(within.high);
  const comfortable: string[] = [];
  const possible: string[] = [];
  for (let by = -5; by <= 6; by++) {
    const { key } = movedPlacement(home, by);
    if (key === undefined) continue;
    const name = noteSign({ ...key, octave: 4 });
    if (fits(range, by)) comfortable.push(name);
    else if (fits(limit, by)) possible.push(name);
  }
  const rows: [string, string][] = [];
  if (range !== undefined)
    rows.push([
      "keys",
      comfortable.length === 0 ? "none lies comfortably" : `comfortable in ${comfortable.join(", ")}`,
    ]);
  if (limit !== undefined && possible.length > 0)
    rows.push(["", `within the limit in ${possible.join(", ")}`]);
  return rows;
}
