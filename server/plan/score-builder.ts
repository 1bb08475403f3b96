import type { Span } from "../../grammar/span";
import type { Music, MusicElement } from "../../grammar/tree";
import { degreePitch, type Key } from "../music/key";
import type { Dynamic } from "../music/loudness";
import { midiOf, type Pitch } from "../music/pitch";
import { compare, type Fraction, fractionText, inTuplet, subtract, totalValue } from "../music/rhythm";
import { type Manner, plainManner } from "./manner";
import { type Reader, stepInterval } from "./reader";
import {
  type Bar,
  type ScaleDegree,
  type Score,
  ScoreNote,
  type ScoreRest,
  type Slur,
  type Tuplet,
} from "./score";
import type { MusicSlip } from "./trouble";

export interface ScoreGround {
  readonly key: Key | undefined;
  /** Undefined for free bars. */
  readonly meter: Fraction | undefined;
  readonly dynamic: Dynamic;
  /** Octave of degree 1. */
  readonly tonicOctave: number;
}

/** What may still change of a note while the music after it is read. */
type DraftNote = ScoreNote & {
  pitch: Pitch | undefined;
  degree: ScaleDegree | undefined;
  manner: Manner;
  breath: boolean;
};
type DraftRest = ScoreRest & { breath: boolean };
type DraftEvent = DraftNote | DraftRest;

const PLAIN: Bar["role"] = { kind: "plain" };

/**
 * What scores are gathered in, one after the other; what is kept of it is copied. Of each list the first so many are
 * those of the score that is being built, and what lies beyond is left from others.
 */
const gathered = {
  bars: [] as Bar[],
  /** Of the bar that is open. */
  events: [] as DraftEvent[],
  /** Notes written as degrees, and beside each the key in force. */
  degrees: [] as DraftNote[],
  keys: [] as (Key | undefined)[],
};

/** Up to how many bars scores without repeats share their order: nearly all that are written. */
const SHARED_ORDERS = 128;

/** The shared orders by their number of bars. */
const inTurn: (readonly number[] | undefined)[] = [];

/** So many bars one after the other. */
function oneByOne(bars: number): readonly number[] {
  const known = inTurn[bars];
  if (known !== undefined) return known;
  const order = Array.from({ length: bars }, (_, i) => i);
  if (bars <= SHARED_ORDERS) inTurn[bars] = order;
  return order;
}

/** Builds the score of one exercise, noting every bar that does not fill its meter and every slip of the pen. */
export function buildScore(reader: Reader, music: Music, ground: ScoreGround): Score {
  return new Builder(reader, ground).build(music);
}

class Builder {
  /** Bars that are closed, events of the bar that is open, and notes by degrees. */
  private bars = 0;
  private open = 0;
  private degrees = 0;
  /** Undefined until there is a repeat: the bars sound as they stand. */
  private order: number[] | undefined;
  private value: Fraction | undefined;
  private tuplet: Tuplet | undefined;
  private dynamic: Dynamic;
  private hairpin: "cresc" | "dim" | undefined;
  private tonguing: Manner["tonguing"] = "single";
  private attack: Manner["attack"] = "tongue";
  /** How a note is played that the tongue starts, and one that it does not; undefined until there is one. */
  private struck: Manner | undefined;
  private joined: Manner | undefined;
  private key: Key | undefined;
  private meter: Fraction | undefined;
  private freeSeconds: number | undefined;
  private slur: Slur | undefined;
  /** Where it was opened, whether it waits for its first note, and whether it is said that another stood in it. */
  private slurSpan: Span | undefined;
  private slurBegins = false;
  private slurNested = false;
  private slurs = 0;
  private tie: DraftNote | undefined;
  private last: DraftNote | undefined;
  private lastEvent: DraftEvent | undefined;
  private pickup = false;
  /** Whether nothing has been written yet in the piece, or in the section that was opened. */
  private begins = true;
  /** Of the pick-up written last. */
  private pickupLength: Fraction | undefined;
  private pickups = 0;
  /** Pick-ups inside repeats, by the repeat: the bar that leads back leaves room for them. */
  private repeatPickups: Map<number, Fraction> | undefined;
  private role: Bar["role"] = PLAIN;
  private repeat = -1;
  private repeats = 0;
  private openRepeat: { bars: number[]; endings: number[][] } | undefined;
  private sink: number[] | undefined;
  /** The bar whose length is not checked yet, since it may turn out to be the last. */
  private unchecked: number | undefined;

  constructor(
    private readonly reader: Reader,
    private readonly ground: ScoreGround,
  ) {
    this.dynamic = ground.dynamic;
    this.key = ground.key;
    this.meter = ground.meter;
  }

  build(music: Music): Score {
    this.read(music.elements);
    this.closeBar();
    if (this.unchecked !== undefined) this.checkLength(this.unchecked, undefined);
    this.closeRepeat();
    if (this.slurSpan !== undefined) this.slip({ span: this.slurSpan }, "slur-not-closed");
    if (this.tie !== undefined) this.slip(this.tie, "tie-to-nothing");
    if (this.bars === 0) this.slip(music, "empty");
    this.placeDegrees();
    return { bars: gathered.bars.slice(0, this.bars), order: this.order ?? oneByOne(this.bars) };
  }

  private slip(node: { readonly span: Span }, slip: MusicSlip): void {
    this.reader.note({ kind: "music-slip", place: this.reader.place(node), slip });
  }

  private read(elements: readonly MusicElement[]): void {
    for (const element of elements) this.element(element);
  }

  private element(element: MusicElement): void {
    switch (element.kind) {
      case "value":
        this.value = this.reader.value(element) ?? this.value;
        return;
      case "pitch": {
        const pitch = this.reader.pitch(element);
        if (pitch !== undefined) this.note(element.span, pitch, undefined, undefined);
        else this.unheard(element.span);
        return;
      }
      case "degree":
        this.note(element.span, undefined, element, undefined);
        return;
      case "partial":
        this.note(element.span, undefined, undefined, element.partial);
        return;
      case "rest": {
        const value = this.valueFor(element.span);
        if (value === undefined) return;
        this.tiedTo(undefined);
        this.push({ kind: "rest", value, tuplet: this.tuplet, breath: false, span: element.span });
        this.last = undefined;
        return;
      }
      case "slur open":
        if (this.slur !== undefined) {
          // Said once for a slur, however many brackets follow.
          if (!this.slurNested) this.slip(element, "slur-inside-slur");
          this.slurNested = true;
        } else {
          this.slur = { number: this.slurs++, lip: element.lip };
          this.slurSpan = element.span;
          this.slurBegins = true;
          this.slurNested = false;
        }
        return;
      case "slur close":
        if (this.slur === undefined) this.slip(element, "slur-not-open");
        this.slur = undefined;
        this.slurSpan = undefined;
        return;
      case "bar":
        this.closeBar();
        return;
      case "breath": {
        const event = this.lastEvent;
        if (event === undefined) this.slip(element, "mark-without-note");
        else event.breath = true;
        return;
      }
      case "tie":
        if (this.last === undefined) this.slip(element, "mark-without-note");
        else this.tie = this.last;
        return;
      case "held":
        if (this.last === undefined) this.slip(element, "mark-without-note");
        else this.last.manner = { ...this.last.manner, held: true };
        return;
      case "mark":
        if (this.last === undefined) this.slip(element, "mark-without-note");
        else this.last.manner = { ...this.last.manner, marks: [...this.last.marks, element.mark] };
        return;
      case "bend":
        if (this.last === undefined) this.slip(element, "mark-without-note");
        else this.last.manner = { ...this.last.manner, bend: stepInterval(element.step).semitones };
        return;
      case "dynamic":
        this.dynamic = element.dynamic;
        this.struck = this.joined = undefined;
        return;
      case "hairpin":
        this.hairpin = element.way;
        return;
      case "tonguing":
        this.tonguing = element.how;
        this.struck = this.joined = undefined;
        return;
      case "attack":
        this.attack = element.how;
        this.struck = this.joined = undefined;
        return;
      case "pickup":
        if (!this.begins) this.slip(element, "pickup-not-first");
        else this.pickup = true;
        return;
      case "free":
        this.freeSeconds = this.reader.seconds(element.time, "free bar");
        return;
      case "key change":
        this.key = this.reader.wholeKey(element.key) ?? this.key;
        return;
      case "meter change":
        this.meter = element.value === undefined ? undefined : this.reader.meter(element.value);
        return;
      case "tuplet": {
        const outer = this.tuplet;
        this.tuplet = { notes: element.notes, inTimeOf: element.inTimeOf };
        this.read(element.elements);
        this.tuplet = outer;
        return;
      }
      case "repeat":
        this.closeBar();
        this.closeRepeat();
        this.order ??= [...oneByOne(this.bars)];
        this.openRepeat = { bars: [], endings: [] };
        this.repeat = this.repeats++;
        this.section({ kind: "repeat" }, this.openRepeat.bars, element.elements);
        return;
      case "ending": {
        this.closeBar();
        if (this.openRepeat === undefined) {
          this.slip(element, "ending-without-repeat");
          this.read(element.elements);
          return;
        }
        const bars: number[] = [];
        this.openRepeat.endings.push(bars);
        this.section({ kind: "ending", number: element.number }, bars, element.elements);
        return;
      }
      case "line":
      case "comment":
      case "unread music":
        return;
    }
  }

  private section(role: Bar["role"], sink: number[], elements: readonly MusicElement[]): void {
    this.role = role;
    this.sink = sink;
    this.begins = role.kind === "repeat";
    this.read(elements);
    this.closeBar();
    this.role = PLAIN;
    this.sink = undefined;
  }

  private closeRepeat(): void {
    const open = this.openRepeat;
    if (open === undefined) return;
    this.openRepeat = undefined;
    this.repeat = -1;
    const [first = [], second = []] = open.endings;
    this.order?.push(...open.bars, ...first, ...open.bars, ...second);
  }

  private valueFor(span: Span): Fraction | undefined {
    if (this.value === undefined) {
      this.slip({ span }, "no-value");
      this.value = { num: 1, den: 4 };
    }
    const { tuplet, value } = this;
    return tuplet === undefined ? value : inTuplet(value, tuplet.notes, tuplet.inTimeOf);
  }

  /** A note that cannot be meant fills its place in the bar all the same: one slip, one finding. */
  private unheard(span: Span): void {
    const value = this.valueFor(span);
    if (value === undefined) return;
    this.tie = undefined;
    this.push({ kind: "rest", value, tuplet: this.tuplet, breath: false, span });
  }

  private note(
    span: Span,
    pitch: Pitch | undefined,
    degree: { degree: number; alter: number } | undefined,
    partial: number | undefined,
  ): void {
    const value = this.valueFor(span);
    if (value === undefined) return;
    const begins = this.slur === undefined || this.slurBegins;
    const note: DraftNote = new ScoreNote(
      pitch,
      degree === undefined ? undefined : scaleDegree(degree.degree, degree.alter, "up"),
      partial,
      value,
      this.tuplet,
      this.mannerOf(begins && this.attack === "tongue"),
      this.slur,
      false,
      span,
    );
    this.tiedTo(note);
    this.slurBegins = false;
    if (degree !== undefined) {
      // Degrees are placed at the end, when the direction of the line is known; the key in force is kept.
      gathered.degrees[this.degrees] = note;
      gathered.keys[this.degrees++] = this.key;
    }
    this.push(note);
    this.last = note;
  }

  private mannerOf(tongued: boolean): Manner {
    const { dynamic, tonguing, attack, hairpin } = this;
    let manner = tongued ? this.struck : this.joined;
    if (manner === undefined) {
      manner = plainManner(dynamic, tonguing, attack, tongued);
      if (tongued) this.struck = manner;
      else this.joined = manner;
    }
    if (hairpin === undefined) return manner;
    this.hairpin = undefined;
    return { ...manner, hairpin };
  }

  /** In the melodic minor a degree is raised when the line goes on upward, natural when it goes down. */
  private placeDegrees(): void {
    const { degrees: notes, keys } = gathered;
    const heightAt = (at: number): number => height(notes[at]!.degree!.degree);
    for (let i = 0; i < this.degrees; i++) {
      const note = notes[i]!;
      const { degree, alter } = note.degree!;
      const here = height(degree);
      // A repeated degree waits for where the line goes.
      let ahead = i + 1;
      while (ahead < this.degrees && heightAt(ahead) === here) ahead++;
      const direction = ahead < this.degrees && heightAt(ahead) < here ? "down" : "up";
      if (direction === "down") note.degree = scaleDegree(degree, alter, direction);
      const key = keys[i];
      if (key === undefined) continue;
      note.pitch = degreePitch(key, this.ground.tonicOctave, degree, alter, direction);
    }
  }

  private tiedTo(note: DraftNote | undefined): void {
    const from = this.tie;
    this.tie = undefined;
    if (from === undefined) return;
    if (note === undefined) {
      this.slip(from, "tie-to-nothing");
      return;
    }
    if (samePitch(from, note)) {
      note.manner = { ...note.manner, tied: true, tongued: false };
    } else this.slip({ span: { start: from.span.start, end: note.span.end } }, "tie-to-other-pitch");
  }

  private push(event: DraftEvent): void {
    if (this.openRepeat !== undefined && this.sink === undefined) this.closeRepeat();
    gathered.events[this.open++] = event;
    this.begins = false;
    this.lastEvent = event;
  }

  private closeBar(): void {
    if (this.open === 0) return;
    const events = gathered.events.slice(0, this.open);
    const length = totalValue(events);
    const index = this.bars++;
    const { pickup } = this;
    const repeat = this.role.kind === "plain" ? -1 : this.repeat;
    if (pickup) {
      this.pickup = false;
      this.pickupLength = length;
      this.pickups++;
      if (repeat >= 0) {
        this.repeatPickups ??= new Map();
        this.repeatPickups.set(repeat, length);
      }
    }
    const bar: Bar = {
      events,
      length,
      meter: this.meter,
      freeSeconds: this.freeSeconds,
      key: this.key,
      role: this.role,
      repeat,
      pickup,
    };
    gathered.bars[index] = bar;
    (this.sink ?? this.order)?.push(index);
    this.open = 0;
    this.freeSeconds = undefined;
    // The bar before is checked only now, when it is known what follows it.
    if (this.unchecked !== undefined) this.checkLength(this.unchecked, bar);
    this.unchecked = index;
  }

  private checkLength(index: number, next: Bar | undefined): void {
    const bar = gathered.bars[index]!;
    if (bar.meter === undefined || bar.freeSeconds !== undefined) return;
    if (bar.pickup && compare(bar.length, bar.meter) < 0) return;
    const room = bar.pickup ? undefined : this.pickupAfter(bar, next);
    // A pick-up of another meter may be longer than this bar, and leaves no room to speak of.
    const afterPickup = room !== undefined && compare(room, bar.meter) < 0;
    const want = afterPickup ? subtract(bar.meter, room) : bar.meter;
    const order = compare(bar.length, want);
    if (order === 0) return;
    const { events } = bar;
    const span = { start: events[0]!.span.start, end: events[events.length - 1]!.span.end };
    this.reader.note({
      kind: "bar-length",
      place: this.reader.place({ span }),
      // A pick-up has no number of its own.
      bar: index + 1 - (next?.pickup === true ? this.pickups - 1 : this.pickups),
      have: fractionText(bar.length),
      want: fractionText(want),
      more: order > 0,
      afterPickup,
    });
  }

  /** The pick-up that a bar leaves room for: the one that follows it, or the one it leads back to. */
  private pickupAfter(bar: Bar, next: Bar | undefined): Fraction | undefined {
    if (next?.pickup === true) return this.pickupLength;
    // Where repeats have pick-ups of their own, one that has none ends in a full bar.
    if (next === undefined)
      return bar.repeat >= 0 && this.repeatPickups !== undefined
        ? this.repeatPickups.get(bar.repeat)
        : this.pickupLength;
    const { role } = bar;
    const leadsBack =
      (role.kind === "repeat" && next.repeat !== bar.repeat) ||
      (role.kind === "ending" && role.number === 1 && next.role !== role);
    return leadsBack ? this.repeatPickups?.get(bar.repeat) : undefined;
  }
}

const scaleDegrees = new Map<number, ScaleDegree>();

/** A degree as notes have it; the same object for the same degree. */
function scaleDegree(degree: number, alter: number, direction: ScaleDegree["direction"]): ScaleDegree {
  // Between −14 and 22, changed by no more than a few half steps.
  const key = ((degree + 16) * 16 + alter + 8) * 2 + (direction === "up" ? 0 : 1);
  let known = scaleDegrees.get(key);
  if (known === undefined) {
    known = { degree, alter, direction };
    scaleDegrees.set(key, known);
  }
  return known;
}

/** Where a degree lies, for comparing: 1 is 0, 8 is 7, −7 is −1, −1 is −7. */
function height(degree: number): number {
  if (degree > 0) return degree - 1;
  const count = -degree - 1;
  return (count % 7) - 7 * (Math.floor(count / 7) + 1);
}

function samePitch(a: DraftNote, b: DraftNote): boolean {
  if (a.partial !== undefined) return a.partial === b.partial;
  if (a.degree !== undefined)
    return a.degree.degree === b.degree?.degree && a.degree.alter === b.degree.alter;
  return a.pitch !== undefined && b.pitch !== undefined && midiOf(a.pitch) === midiOf(b.pitch);
}
