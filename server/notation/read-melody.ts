/**
 * MusicXML of one staff → a melody. Whatever the language has no word for is counted and left out; nothing is
 * guessed. Element names and their meaning: W3C MusicXML 4.0.
 */
import { keyOfFifths, keyText, type Mode, parseMode } from "../music/key";
import { DYNAMICS } from "../music/loudness";
import { alterText } from "../music/pitch";
import { type Fraction, fraction, NOTE_VALUES, noteValue } from "../music/rhythm";
import type { Melody, MelodyBar, MelodyEvent } from "./melody";
import { child, childrenOf, ForeignFileError, textIn, type XmlElement } from "./read-xml";

/** A part longer than this is no exercise. */
const MOST_NOTES = 20_000;

const TYPES: ReadonlyMap<string, Fraction> = new Map([
  ["breve", { num: 2, den: 1 }],
  ["whole", noteValue(1)],
  ["half", noteValue(2)],
  ["quarter", noteValue(4)],
  ["eighth", noteValue(8)],
  ["16th", noteValue(16)],
  ["32nd", noteValue(32)],
  ["64th", noteValue(64)],
]);

const MARKS: ReadonlyMap<string, string> = new Map([
  ["accent", "accent"],
  ["staccato", "staccato"],
  ["tenuto", "tenuto"],
  ["strong-accent", "marcato"],
  ["trill-mark", "trill"],
  ["turn", "turn"],
  ["mordent", "mordent"],
  ["inverted-mordent", "mordent"],
]);

/** Notes beside the melody, by the element that tells them. */
const BESIDES = [
  { element: "grace", one: "grace note", many: "grace notes" },
  { element: "cue", one: "cue note", many: "cue notes" },
  { element: "chord", one: "other note of a chord", many: "other notes of chords" },
] as const;

/** The melody of a MusicXML file. Throws a `ForeignFileError` where it is no such file, or holds no melody. */
export function readMelody(root: XmlElement): Melody {
  if (root.name === "score-timewise") {
    throw new ForeignFileError("This file goes bar by bar through all parts. Save it as MusicXML partwise.");
  }
  if (root.name !== "score-partwise") throw new ForeignFileError("This file is no MusicXML.");
  return new MelodyReader(root).read();
}

class LeftOut {
  private readonly counts = new Map<string, { count: number; readonly many: string }>();

  add(one: string, many = `${one}s`): void {
    const known = this.counts.get(one);
    if (known === undefined) this.counts.set(one, { count: 1, many });
    else known.count++;
  }

  words(): readonly string[] {
    return [...this.counts].map(([one, { count, many }]) => `${count} ${count === 1 ? one : many}`);
  }
}

type Draft<T> = { -readonly [K in keyof T]: T[K] };

class MelodyReader {
  private readonly leftOut = new LeftOut();
  private divisions = 1;
  private key: string | undefined;
  private meter: string | undefined;
  private tempo: Melody["tempo"] | undefined;
  private voice: string | undefined;
  private before: string[] = [];
  private slurs = 0;
  private notes = 0;
  private ending: 1 | 2 | undefined;

  constructor(private readonly root: XmlElement) {}

  read(): Melody {
    const parts = childrenOf(this.root, "part");
    const [part] = parts;
    if (part === undefined) throw new ForeignFileError("This file holds no part.");
    for (let n = 1; n < parts.length; n++) this.leftOut.add("other part");
    const measures = childrenOf(part, "measure");
    const bars: MelodyBar[] = [];
    let firstKey: string | undefined;
    let firstMeter: string | undefined;
    for (const measure of measures) {
      const bar = this.bar(measure);
      if (bars.length === 0) {
        firstKey = bar.key;
        firstMeter = bar.meter;
        bars.push({ ...bar, key: undefined, meter: undefined });
      } else bars.push(bar);
    }
    if (!bars.some((bar) => bar.events.some((event) => event.pitch !== "rest"))) {
      throw new ForeignFileError("There is no note in the first part of this file.");
    }
    return {
      title: this.title(),
      key: firstKey ?? "C major",
      meter: firstMeter ?? "free",
      tempo: this.tempo ?? { beat: "1/4", bpm: 60 },
      pickup: isPickup(measures[0], bars[0], firstMeter),
      bars,
      leftOut: this.leftOut.words(),
      supplied: [
        ...(firstKey === undefined ? ["key C major"] : []),
        ...(firstMeter === undefined ? ["meter free"] : []),
        ...(this.tempo === undefined ? ["tempo 1/4 = 60"] : []),
      ],
    };
  }

  private title(): string {
    const title = textIn(child(this.root, "work"), "work-title") ?? textIn(this.root, "movement-title") ?? "";
    return title.replace(/\s+/g, " ").trim();
  }

  private bar(measure: XmlElement): MelodyBar {
    const bar: Draft<MelodyBar> & { events: Draft<MelodyEvent>[] } = {
      events: [],
      key: undefined,
      meter: undefined,
      forward: false,
      backward: false,
      ending: this.ending,
    };
    for (const item of measure.children) {
      switch (item.name) {
        case "attributes":
          this.attributes(item, bar);
          break;
        case "direction":
          this.direction(item);
          break;
        case "sound":
          this.sound(item);
          break;
        case "barline":
          this.barline(item, bar);
          break;
        case "note":
          this.note(item, bar.events);
          break;
        case "forward":
          this.forward(item, bar.events);
          break;
        case "harmony":
        case "figured-bass":
          this.leftOut.add("chord sign");
          break;
        default:
          // Layout, and moves back to voices that are left out anyway.
          break;
      }
    }
    return bar;
  }

  private attributes(attributes: XmlElement, bar: Draft<MelodyBar>): void {
    const divisions = Number(textIn(attributes, "divisions") ?? this.divisions);
    if (divisions > 0 && Number.isFinite(divisions)) this.divisions = divisions;
    const key = child(attributes, "key");
    if (key !== undefined) {
      const fifths = Number(textIn(key, "fifths"));
      if (Number.isInteger(fifths) && Math.abs(fifths) <= 7) {
        const typed = keyText(keyOfFifths(fifths, modeOf(textIn(key, "mode"))));
        if (typed !== this.key) bar.key = typed;
        this.key = typed;
      } else this.leftOut.add("key that the language does not know", "keys that the language does not know");
    }
    const time = child(attributes, "time");
    if (time !== undefined) {
      const beats = childrenOf(time, "beats").map((each) => each.text.trim());
      const typed =
        child(time, "senza-misura") !== undefined
          ? "free"
          : `${beats[0] ?? ""}/${textIn(time, "beat-type") ?? ""}`;
      const known = typed === "free" || /^([1-9]|[12]\d|3[0-2])\/(1|2|4|8|16|32|64)$/.test(typed);
      if (known && beats.length < 2) {
        if (typed !== this.meter) bar.meter = typed;
        this.meter = typed;
      } else
        this.leftOut.add("meter that the language does not know", "meters that the language does not know");
    }
    if (Number(textIn(attributes, "staves") ?? 1) > 1)
      this.leftOut.add("staff below the first", "staves below the first");
  }

  private direction(direction: XmlElement): void {
    if ((textIn(direction, "staff") ?? "1") !== "1") return;
    for (const type of childrenOf(direction, "direction-type").flatMap((each) => each.children)) {
      switch (type.name) {
        case "dynamics":
          for (const { name } of type.children) {
            if ((DYNAMICS as readonly string[]).includes(name)) this.before.push(name);
            else this.leftOut.add("dynamic of another kind", "dynamics of other kinds");
          }
          break;
        case "wedge": {
          const kind = type.attributes.get("type");
          if (kind === "crescendo") this.before.push("cresc");
          if (kind === "diminuendo") this.before.push("dim");
          break;
        }
        case "metronome":
          this.metronome(type);
          break;
        case "words":
        case "rehearsal":
          if (type.text.trim() !== "") this.leftOut.add("word over the music", "words over the music");
          break;
        case "segno":
        case "coda":
          this.leftOut.add("jump sign");
          break;
        default:
          break;
      }
    }
    const sound = child(direction, "sound");
    if (sound !== undefined) this.sound(sound);
  }

  private metronome(metronome: XmlElement): void {
    const value = TYPES.get(textIn(metronome, "beat-unit") ?? "");
    const bpm = Math.round(Number(/[\d.]+/.exec(textIn(metronome, "per-minute") ?? "")?.[0]));
    if (value === undefined || value.num !== 1 || !(bpm >= 10 && bpm <= 400)) return;
    const dots = Math.min(3, childrenOf(metronome, "beat-unit-dot").length);
    const tempo = { beat: `1/${value.den}${".".repeat(dots)}`, bpm };
    // One tempo holds for an exercise.
    if (this.tempo !== undefined && this.notes > 0) this.leftOut.add("change of tempo", "changes of tempo");
    else this.tempo = tempo;
  }

  private sound(sound: XmlElement): void {
    for (const name of ["dacapo", "dalsegno", "tocoda", "fine"]) {
      if (sound.attributes.has(name)) this.leftOut.add("jump sign");
    }
    const bpm = Math.round(Number(sound.attributes.get("tempo")));
    if (this.tempo === undefined && bpm >= 10 && bpm <= 400) this.tempo = { beat: "1/4", bpm };
  }

  private barline(barline: XmlElement, bar: Draft<MelodyBar>): void {
    const ending = child(barline, "ending");
    if (ending !== undefined) {
      const type = ending.attributes.get("type");
      const number = ending.attributes.get("number")?.trim();
      if (type === "start") {
        if (number === "1" || number === "2") {
          this.ending = number === "1" ? 1 : 2;
          bar.ending = this.ending;
        } else this.leftOut.add("ending for other times through", "endings for other times through");
      } else this.ending = undefined;
    }
    const repeat = child(barline, "repeat");
    if (repeat === undefined) return;
    if (repeat.attributes.get("direction") === "forward") bar.forward = true;
    else bar.backward = true;
    if (Number(repeat.attributes.get("times") ?? 2) > 2) {
      this.leftOut.add("repeat of more than two times", "repeats of more than two times");
    }
  }

  /** Whether an element belongs to another voice or staff than the melody's. */
  private isOther(element: XmlElement): boolean {
    const voice = textIn(element, "voice") ?? "1";
    if ((textIn(element, "staff") ?? "1") !== "1") return true;
    this.voice ??= voice;
    return voice !== this.voice;
  }

  private forward(forward: XmlElement, events: Draft<MelodyEvent>[]): void {
    if (child(forward, "voice") === undefined || this.isOther(forward)) return;
    const value = this.duration(forward);
    if (value !== undefined) events.push(...this.split({ ...EMPTY, value }));
  }

  private note(note: XmlElement, events: Draft<MelodyEvent>[]): void {
    if (this.isOther(note)) {
      if (child(note, "rest") === undefined)
        this.leftOut.add("note of another voice", "notes of other voices");
      return;
    }
    const besides = BESIDES.find(({ element }) => child(note, element) !== undefined);
    if (besides !== undefined) {
      this.leftOut.add(besides.one, besides.many);
      return;
    }
    if (++this.notes > MOST_NOTES)
      throw new ForeignFileError(`This melody has more than ${MOST_NOTES} notes.`);
    for (const _ of childrenOf(note, "lyric")) this.leftOut.add("syllable of text", "syllables of text");
    const modification = child(note, "time-modification");
    const tuplet = this.tupletOf(modification);
    const value = this.printed(note, tuplet);
    if (value === undefined) {
      throw new ForeignFileError(
        "This melody has a note value that the language cannot write, such as a 128th.",
      );
    }
    const pitch = this.pitch(note);
    const notations = childrenOf(note, "notations").flatMap((each) => each.children);
    const brackets = notations
      .filter((each) => each.name === "tuplet")
      .map((each) => each.attributes.get("type"));
    const event: Draft<MelodyEvent> = {
      pitch,
      value,
      tuplet,
      tupletStarts: brackets.includes("start"),
      before: pitch === "rest" ? [] : this.before,
      marks: [],
      tied: false,
      breath: false,
      slurStarts: false,
      slurEnds: false,
    };
    if (pitch !== "rest") {
      this.before = [];
      event.tied = childrenOf(note, "tie").some((each) => each.attributes.get("type") === "start");
      event.marks = this.marks(notations);
      this.slur(notations, event);
    }
    event.breath = notations.some(
      (each) => each.name === "articulations" && child(each, "breath-mark") !== undefined,
    );
    events.push(...this.split(event));
  }

  private pitch(note: XmlElement): string {
    const pitch = child(note, "pitch");
    if (pitch === undefined) {
      if (child(note, "unpitched") !== undefined)
        this.leftOut.add("note without a pitch", "notes without a pitch");
      return "rest";
    }
    const step = textIn(pitch, "step") ?? "";
    const alter = Number(textIn(pitch, "alter") ?? 0);
    const octave = Number(textIn(pitch, "octave"));
    const whole = Number.isInteger(alter) && Math.abs(alter) <= 2;
    if (/^[A-G]$/.test(step) && whole && Number.isInteger(octave) && octave >= 1 && octave <= 7) {
      return `${step}${alterText(alter)}${octave}`;
    }
    this.leftOut.add("note that cannot be written", "notes that cannot be written");
    return "rest";
  }

  private tupletOf(modification: XmlElement | undefined): MelodyEvent["tuplet"] {
    const notes = Number(textIn(modification, "actual-notes"));
    const inTimeOf = Number(textIn(modification, "normal-notes"));
    if (!(notes >= 2 && notes <= 64 && inTimeOf >= 1 && inTimeOf <= 64)) return undefined;
    return Number.isInteger(notes) && Number.isInteger(inTimeOf) && notes !== inTimeOf
      ? { notes, inTimeOf }
      : undefined;
  }

  private printed(note: XmlElement, tuplet: MelodyEvent["tuplet"]): Fraction | undefined {
    const type = TYPES.get(textIn(note, "type") ?? "");
    const wholeBar = child(note, "rest")?.attributes.get("measure") === "yes";
    if (type !== undefined && !wholeBar) {
      const dots = Math.min(3, childrenOf(note, "dot").length);
      return fraction(type.num * (2 ** (dots + 1) - 1), type.den * 2 ** dots);
    }
    const sounding = this.duration(note);
    if (sounding === undefined || tuplet === undefined) return sounding;
    return fraction(sounding.num * tuplet.notes, sounding.den * tuplet.inTimeOf);
  }

  private duration(element: XmlElement): Fraction | undefined {
    const duration = Number(textIn(element, "duration"));
    if (!(duration > 0) || !Number.isInteger(duration) || !Number.isInteger(this.divisions)) return undefined;
    return duration < 1e9 && this.divisions < 1e6 ? fraction(duration, 4 * this.divisions) : undefined;
  }

  private marks(notations: readonly XmlElement[]): string[] {
    const marks: string[] = [];
    for (const notation of notations) {
      if (notation.name === "fermata") marks.push("fermata");
      if (notation.name !== "articulations" && notation.name !== "ornaments" && notation.name !== "technical")
        continue;
      for (const { name } of notation.children) {
        const mark = MARKS.get(name);
        if (mark !== undefined) marks.push(mark);
        else if (name === "fingering") this.leftOut.add("fingering");
        else if (name !== "breath-mark") this.leftOut.add(`sign (${name})`, `signs (${name})`);
      }
    }
    return [...new Set(marks)];
  }

  /** Slurs inside slurs are left out: the language has one at a time. */
  private slur(notations: readonly XmlElement[], event: Draft<MelodyEvent>): void {
    const types = notations.filter((each) => each.name === "slur").map((each) => each.attributes.get("type"));
    // One may end on the note on which the next begins.
    for (const type of [...types].sort((a, b) => Number(a === "start") - Number(b === "start"))) {
      if (type === "stop" && this.slurs > 0) {
        this.slurs--;
        if (this.slurs === 0) event.slurEnds = true;
      }
      if (type === "start") {
        this.slurs++;
        if (this.slurs === 1) event.slurStarts = true;
        else this.leftOut.add("slur within a slur", "slurs within slurs");
      }
    }
  }

  /** A value no single note has becomes tied notes, or several rests. */
  private split(event: Draft<MelodyEvent>): readonly Draft<MelodyEvent>[] {
    const values = singleValues(event.value);
    if (values === undefined) {
      throw new ForeignFileError(
        "This melody has a note value that the language cannot write, such as a 128th.",
      );
    }
    return values.map((value, index): Draft<MelodyEvent> => {
      const last = index === values.length - 1;
      return {
        ...event,
        value,
        before: index === 0 ? event.before : [],
        marks: index === 0 ? event.marks : [],
        tied: event.pitch !== "rest" && (last ? event.tied : true),
        breath: last && event.breath,
        slurStarts: index === 0 && event.slurStarts,
        slurEnds: last && event.slurEnds,
        tupletStarts: index === 0 && event.tupletStarts,
      };
    });
  }
}

const EMPTY: MelodyEvent = {
  pitch: "rest",
  value: { num: 1, den: 4 },
  tuplet: undefined,
  tupletStarts: false,
  before: [],
  marks: [],
  tied: false,
  breath: false,
  slurStarts: false,
  slurEnds: false,
};

/** A value as a sum of values that notes have, the longest first; undefined where it has a rest beyond the shortest. */
function singleValues(value: Fraction): readonly Fraction[] | undefined {
  const single = NOTE_VALUES.flatMap((base) => [3, 2, 1, 0].map((dots) => noteValue(base, dots))).sort(
    (a, b) => b.num / b.den - a.num / a.den,
  );
  const values: Fraction[] = [];
  let left = value;
  while (left.num > 0) {
    const next = single.find((each) => each.num * left.den <= left.num * each.den);
    if (next === undefined || values.length >= 64) return undefined;
    values.push(next);
    left = fraction(left.num * next.den - next.num * left.den, left.den * next.den);
  }
  return values.length === 0 ? undefined : values;
}

function modeOf(word: string | undefined): Mode {
  if (word === undefined || word === "none") return "major";
  if (word === "ionian") return "major";
  if (word === "aeolian") return "natural minor";
  return parseMode(word) ?? "major";
}

/** A first bar shorter than its meter, or said to be outside the count. */
function isPickup(
  measure: XmlElement | undefined,
  bar: MelodyBar | undefined,
  meter: string | undefined,
): boolean {
  const [beats = 0, type = 1] = (meter ?? "").split("/").map(Number);
  if (measure === undefined || bar === undefined || !(beats > 0)) return false;
  let length = 0;
  for (const { value, tuplet } of bar.events) {
    length += (value.num / value.den) * (tuplet === undefined ? 1 : tuplet.inTimeOf / tuplet.notes);
  }
  return length > 0 && length < beats / type - 1e-9;
}
