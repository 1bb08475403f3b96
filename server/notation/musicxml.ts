/**
 * The sheet as MusicXML 4.0 text. The order of elements, and what each means, is that of the W3C schema; the
 * tests hold every file against it.
 */
import { fifthsOf, type Key } from "../music/key";
import { stepLetter } from "../music/pitch";
import { add, compare, equals, type Fraction, toNumber, ZERO } from "../music/rhythm";
import { type Accidental, accidentalsOf } from "./accidentals";
import { type BeamPart, barStart, beamsOf } from "./beams";
import { type Joins, joinsOf, slurName } from "./joins";
import { noteShape } from "./note-shape";
import { printedValue, type Sheet, type SheetBar, type SheetEvent, type SheetNote } from "./sheet";
import { syllablesOf } from "./syllables";
import { type TupletEdge, tupletEdges } from "./tuplet-groups";
import { type Element, element, type Node, printed, textElement } from "./xml-text";

export interface MusicXmlStyle {
  /** Over the notes as fingerings proper, as a line of text under them (for engraving), or not at all. */
  readonly fingerings: "none" | "marks" | "line";
  /** Whether notes carry the names `e0`, `e1` …, by which an engraving can be traced back to the sheet. */
  readonly ids: boolean;
  /** Numbers of the bars that begin a new system, besides those where the exercise begins anew. */
  readonly breaks: ReadonlySet<number>;
  /** Unseen where the page around an engraving says the tempo itself; what plays the file knows it all the same. */
  readonly tempo?: "shown" | "unseen";
  /** Numbers of the bars, besides the first, that begin a text of their own; see `musicXmlParts`. */
  readonly parts?: ReadonlySet<number>;
}

/** How files for other programs are written. */
export const FILE_STYLE: MusicXmlStyle = { fingerings: "none", ids: false, breaks: new Set() };

const TYPES: Readonly<Record<number, string>> = {
  1: "whole",
  2: "half",
  4: "quarter",
  8: "eighth",
  16: "16th",
  32: "32nd",
  64: "64th",
};

const ACCIDENTALS: Readonly<Record<number, string>> = {
  [-2]: "flat-flat",
  [-1]: "flat",
  0: "natural",
  1: "sharp",
  2: "double-sharp",
};

/** Finer than any printed value; beyond it divisions would grow past what programs read. */
const MOST_DIVISIONS = 1_000_000;

/** The sheet as MusicXML text. Equal sheets give equal text. */
export function musicXmlOf(sheet: Sheet, style: MusicXmlStyle = FILE_STYLE): string {
  return scoreText(sheet, new PartWriter(sheet, style).measures());
}

/**
 * The sheet as several texts, one for each of `style.parts` and one for what comes before: each can be engraved by
 * itself and goes on where the one before ended, its notes named from `e0` again. A change in one of them leaves the
 * others as they are. Nothing may reach from one part into the next: no slur, tie, hairpin or ending.
 */
export function musicXmlParts(sheet: Sheet, style: MusicXmlStyle): readonly string[] {
  const measures = new PartWriter(sheet, style).measures();
  const starts = [0, ...[...(style.parts ?? [])].filter((each) => each > 0).toSorted((a, b) => a - b)];
  return starts.map((start, index) => scoreText(sheet, measures.slice(start, starts[index + 1])));
}

/** The number of the first event in the bars from one on, by which the names in a part are counted. */
export function firstIdFrom(bars: readonly SheetBar[], from: number): number {
  for (const { events } of bars.slice(from)) if (events[0] !== undefined) return events[0].id;
  return 0;
}

function scoreText(sheet: Sheet, measures: readonly Element[]): string {
  return `<?xml version="1.0" encoding="UTF-8" standalone="no"?>
<!DOCTYPE score-partwise PUBLIC "-//Recordare//DTD MusicXML 4.0 Partwise//EN" "http://www.musicxml.org/dtds/partwise.dtd">
${printed(
  element(
    "score-partwise",
    { version: "4.0" },
    element("work", {}, textElement("work-title", sheet.title)),
    identification(sheet),
    partList(sheet),
    element("part", { id: "P1" }, ...measures),
  ),
)}`;
}

function identification({ aims }: Sheet): Element {
  return element(
    "identification",
    {},
    element("encoding", {}, textElement("software", "Leadpipe")),
    aims.length === 0
      ? undefined
      : element(
          "miscellaneous",
          {},
          ...aims.map((aim, index) =>
            textElement("miscellaneous-field", aim, { name: index === 0 ? "aim" : `aim ${index + 1}` }),
          ),
        ),
  );
}

function partList({ instrument }: Sheet): Element {
  const name = instrument.name.charAt(0).toUpperCase() + instrument.name.slice(1);
  return element(
    "part-list",
    {},
    element(
      "score-part",
      { id: "P1" },
      textElement("part-name", name, { "print-object": "no" }),
      element(
        "score-instrument",
        { id: "P1-I1" },
        textElement("instrument-name", name),
        textElement("instrument-sound", instrument.soundId),
      ),
      element(
        "midi-instrument",
        { id: "P1-I1" },
        textElement("midi-channel", 1),
        textElement("midi-program", instrument.midiProgram),
      ),
    ),
  );
}

class PartWriter {
  private readonly divisions: number;
  private readonly joins: Joins;
  private readonly accidentals: ReadonlyMap<number, Accidental>;
  private readonly syllables: ReadonlyMap<number, string>;
  private readonly dynamicsShown: boolean;
  private key: Key | undefined;
  private meter: Fraction | undefined | "none" = "none";
  private dynamic: string | undefined;
  private hairpin = false;
  private lipSaid = false;
  private slur: string | undefined;
  private barNumber = 0;
  /** The number of the first event of the text at hand, from which its names are counted. */
  private firstId = 0;

  constructor(
    private readonly sheet: Sheet,
    private readonly style: MusicXmlStyle,
  ) {
    this.divisions = divisionsOf(sheet);
    this.joins = joinsOf(sheet.bars);
    this.accidentals = accidentalsOf(sheet.bars);
    this.syllables = syllablesOf(sheet.bars);
    const notes = sheet.bars.flatMap((bar) => bar.events).filter((event) => event.kind === "note");
    // Mezzo-forte throughout is what a player does anyway.
    this.dynamicsShown = notes.some((note) => note.dynamic !== "mf" || note.hairpin !== undefined);
  }

  measures(): readonly Element[] {
    return this.sheet.bars.map((bar, index) => this.bar(bar, index));
  }

  private bar(bar: SheetBar, index: number): Element {
    const before = this.sheet.bars[index - 1];
    const after = this.sheet.bars[index + 1];
    const opensPart = this.style.parts?.has(index) === true;
    if (opensPart) this.firstId = firstIdFrom(this.sheet.bars, index);
    const breaks = index > 0 && !opensPart && (this.style.breaks.has(index) || bar.opens !== undefined);
    const children: Node[] = [
      breaks ? element("print", { "new-system": "yes" }) : undefined,
      leftBarline(bar, before),
      this.attributes(bar, index),
      ...this.opening(bar, before, index),
    ];
    const beams = beamsOf(bar.events, bar.meter, barStart(bar.length, bar.meter, bar.pickup));
    const tuplets = tupletEdges(bar.events);
    let onset = ZERO;
    bar.events.forEach((event, at) => {
      const ends = add(onset, event.value);
      const duration = this.ticks(ends) - this.ticks(onset);
      onset = ends;
      if (event.kind === "note") children.push(...this.directions(event));
      children.push(this.note(event, duration, beams[at] ?? [], tuplets[at], bar));
    });
    if (after === undefined || after.opens !== undefined) children.push(...this.endHairpin());
    children.push(rightBarline(bar, after));
    return element(
      "measure",
      { number: bar.pickup ? `X${index}` : ++this.barNumber, implicit: bar.pickup ? "yes" : undefined },
      ...children,
    );
  }

  /** A moment in the bar, in divisions. */
  private ticks(moment: Fraction): number {
    return Math.round((moment.num * 4 * this.divisions) / moment.den);
  }

  private attributes(bar: SheetBar, index: number): Node {
    const { instrument } = this.sheet;
    const first = index === 0 || this.style.parts?.has(index) === true;
    const newKey = first || (bar.key !== undefined && !sameSignature(bar.key, this.key));
    const newMeter = this.meter === "none" || !sameMeter(bar.meter, this.meter);
    if (bar.key !== undefined) this.key = bar.key;
    this.meter = bar.meter;
    if (!first && !newKey && !newMeter) return undefined;
    const { steps, semitones } = instrument.transposition;
    return element(
      "attributes",
      {},
      first ? textElement("divisions", this.divisions) : undefined,
      newKey
        ? element(
            "key",
            {},
            textElement("fifths", bar.key === undefined ? 0 : fifthsOf(bar.key)),
            bar.key === undefined ? undefined : textElement("mode", modeName(bar.key)),
          )
        : undefined,
      newMeter ? timeOf(bar.meter) : first ? timeOf(bar.meter, "unseen") : undefined,
      first
        ? element(
            "clef",
            {},
            textElement("sign", instrument.clef === "treble" ? "G" : "F"),
            textElement("line", instrument.clef === "treble" ? 2 : 4),
          )
        : undefined,
      first && semitones !== 0
        ? element("transpose", {}, textElement("diatonic", steps), textElement("chromatic", semitones))
        : undefined,
    );
  }

  /** What is said at the start of a bar: tempo, the name of what begins, a bar counted in seconds. */
  private opening(bar: SheetBar, before: SheetBar | undefined, index: number): readonly Node[] {
    const { tempo } = this.sheet;
    const said: Node[] = [];
    const shape = noteShape(tempo.beat);
    if (index === 0 && this.style.tempo === "unseen") said.push(this.tempoSound());
    else if (index === 0) {
      said.push(
        element(
          "direction",
          { placement: "above" },
          element(
            "direction-type",
            {},
            shape === undefined
              ? textElement("words", `${tempo.beat.num}/${tempo.beat.den} = ${tempo.bpm}`)
              : element(
                  "metronome",
                  { parentheses: "no" },
                  textElement("beat-unit", TYPES[shape.base] ?? "quarter"),
                  ...Array.from({ length: shape.dots }, () => element("beat-unit-dot", {})),
                  textElement("per-minute", tempo.bpm),
                ),
          ),
          this.tempoSound(),
        ),
      );
    }
    if (index === 0) {
      const pause = this.sheet.bars.find((each) => each.pause > 0)?.pause ?? 0;
      if (pause > 0) said.push(words(`rest ${secondsWords(pause)} after each`));
    }
    if (bar.opens !== undefined) said.push(words(bar.opens, "bold"));
    if (bar.freeSeconds !== undefined) {
      const quarters = 4 * toNumber(bar.length);
      // The sound stands by itself: words that carry one are taken for a tempo, and set over the meter.
      said.push(soundOf((quarters * 60) / bar.freeSeconds), words(secondsWords(bar.freeSeconds)));
    } else if (before?.freeSeconds !== undefined) said.push(this.tempoSound());
    return said;
  }

  private tempoSound(): Element {
    const { beat, bpm } = this.sheet.tempo;
    return soundOf(bpm * 4 * toNumber(beat));
  }

  /** What is said of a note: dynamics before it, words over it. */
  private directions(note: SheetNote): readonly Node[] {
    const said: Node[] = [];
    const louder = this.dynamicsShown && note.dynamic !== this.dynamic;
    if (louder || note.hairpin !== undefined) said.push(...this.endHairpin());
    if (louder) {
      this.dynamic = note.dynamic;
      said.push(
        element(
          "direction",
          { placement: "below" },
          element("direction-type", {}, element("dynamics", {}, element(note.dynamic, {}))),
        ),
      );
    }
    if (note.hairpin !== undefined) {
      this.hairpin = true;
      said.push(wedge(note.hairpin === "cresc" ? "crescendo" : "diminuendo"));
    }
    const slur = slurName(note);
    if (slur !== this.slur && slur !== undefined) {
      const lip = note.lipSlur !== undefined;
      // Said once, and again where other slurs came between.
      if (lip && !this.lipSaid) said.push(words("lip slur"));
      this.lipSaid = lip;
    }
    this.slur = slur;
    if (note.held) said.push(words("held"));
    if (note.bend > 0 && !note.tied) said.push(words(bendWords(note.bend)));
    return said;
  }

  private endHairpin(): readonly Node[] {
    if (!this.hairpin) return [];
    this.hairpin = false;
    return [wedge("stop")];
  }

  private note(
    event: SheetEvent,
    duration: number,
    beams: readonly BeamPart[],
    tuplet: TupletEdge | undefined,
    bar: SheetBar,
  ): Element {
    const shape = noteShape(printedValue(event));
    const note = event.kind === "note" ? event : undefined;
    const wholeBar = note === undefined && equals(event.value, bar.length) && isFull(bar);
    const { tieStarts } = this.joins;
    return element(
      "note",
      { id: this.style.ids ? `e${event.id - this.firstId}` : undefined },
      note === undefined
        ? element("rest", { measure: wholeBar ? "yes" : undefined })
        : element(
            "pitch",
            {},
            textElement("step", stepLetter(note.pitch.step)),
            note.pitch.alter === 0 ? undefined : textElement("alter", note.pitch.alter),
            textElement("octave", note.pitch.octave),
          ),
      textElement("duration", duration),
      note?.tied === true ? element("tie", { type: "stop" }) : undefined,
      tieStarts.has(event.id) ? element("tie", { type: "start" }) : undefined,
      textElement("voice", 1),
      shape === undefined || wholeBar ? undefined : textElement("type", TYPES[shape.base] ?? "quarter"),
      ...(wholeBar ? [] : Array.from({ length: shape?.dots ?? 0 }, () => element("dot", {}))),
      this.accidental(event.id),
      event.tuplet === undefined
        ? undefined
        : element(
            "time-modification",
            {},
            textElement("actual-notes", event.tuplet.notes),
            textElement("normal-notes", event.tuplet.inTimeOf),
          ),
      ...beams.map((part, level) => textElement("beam", part, { number: level + 1 })),
      this.notations(event, tuplet),
      ...this.lyrics(note),
    );
  }

  private accidental(id: number): Node {
    const accidental = this.accidentals.get(id);
    if (accidental === undefined) return undefined;
    return textElement("accidental", ACCIDENTALS[accidental.alter] ?? "natural", {
      cautionary: accidental.reminder ? "yes" : undefined,
    });
  }

  private notations(event: SheetEvent, tuplet: TupletEdge | undefined): Node {
    const { slurStarts, slurEnds, tieStarts } = this.joins;
    const note = event.kind === "note" ? event : undefined;
    const marks = note?.marks ?? [];
    const fingering =
      this.style.fingerings === "marks" && note !== undefined && !note.tied ? note.fingered?.name : undefined;
    const all: readonly Node[] = [
      note?.tied === true ? element("tied", { type: "stop" }) : undefined,
      tieStarts.has(event.id) ? element("tied", { type: "start" }) : undefined,
      slurEnds.has(event.id) ? element("slur", { type: "stop", number: 1 }) : undefined,
      slurStarts.has(event.id) ? element("slur", { type: "start", number: 1 }) : undefined,
      tuplet?.starts === true ? element("tuplet", { type: "start", number: 1, bracket: "yes" }) : undefined,
      tuplet?.ends === true ? element("tuplet", { type: "stop", number: 1 }) : undefined,
      group("ornaments", [
        marks.includes("trill") ? element("trill-mark", {}) : undefined,
        marks.includes("turn") ? element("turn", {}) : undefined,
        marks.includes("mordent") ? element("mordent", {}) : undefined,
      ]),
      group("technical", [
        fingering === undefined ? undefined : textElement("fingering", fingering),
        note !== undefined && note.bend > 0 ? element("brass-bend", {}) : undefined,
      ]),
      group("articulations", [
        marks.includes("accent") ? element("accent", {}) : undefined,
        marks.includes("marcato") ? element("strong-accent", { type: "up" }) : undefined,
        marks.includes("staccato") ? element("staccato", {}) : undefined,
        marks.includes("tenuto") ? element("tenuto", {}) : undefined,
        event.breath ? textElement("breath-mark", "comma") : undefined,
      ]),
      marks.includes("fermata") ? element("fermata", { type: "upright" }) : undefined,
    ];
    return group("notations", all);
  }

  private lyrics(note: SheetNote | undefined): readonly Node[] {
    if (note === undefined) return [];
    const syllable = this.syllables.get(note.id);
    const fingering = this.style.fingerings === "line" && !note.tied ? note.fingered?.name : undefined;
    const lines = [syllable, fingering].filter((text) => text !== undefined);
    return lines.map((text, index) =>
      element(
        "lyric",
        { number: text === fingering && this.syllables.size > 0 ? 2 : index + 1 },
        textElement("syllabic", "single"),
        textElement("text", text),
      ),
    );
  }
}

/** An element around those children that are there; nothing where there are none. */
function group(name: string, children: readonly Node[]): Node {
  return children.some((child) => child !== undefined) ? element(name, {}, ...children) : undefined;
}

/** Words over the staff: names of what begins in bold, all else slanted. */
function words(text: string, style: "bold" | "italic" = "italic"): Element {
  const look =
    style === "bold" ? { "font-style": "normal", "font-weight": "bold" } : { "font-style": "italic" };
  return element(
    "direction",
    { placement: "above" },
    element("direction-type", {}, textElement("words", text, look)),
  );
}

function wedge(type: "crescendo" | "diminuendo" | "stop"): Element {
  return element(
    "direction",
    { placement: "below" },
    element("direction-type", {}, element("wedge", { type, number: 1 })),
  );
}

/** Quarters to the minute, as playback wants to know. */
function soundOf(quarters: number): Element {
  return element("sound", { tempo: Number(quarters.toFixed(6)) });
}

function secondsWords(seconds: number): string {
  return `${Number(seconds.toFixed(1))} s`;
}

/** How many steps down, as short as it must be to stand over one note. */
function bendWords(semitones: number): string {
  const steps = Math.floor(semitones / 2);
  return `bend ${steps === 0 ? "" : steps}${semitones % 2 === 1 ? "½" : ""}`;
}

function timeOf(meter: Fraction | undefined, seen: "seen" | "unseen" = "seen"): Element {
  const unseen = { "print-object": "no" };
  if (meter === undefined) return element("time", unseen, textElement("senza-misura", ""));
  return element(
    "time",
    seen === "seen" ? {} : unseen,
    textElement("beats", meter.num),
    textElement("beat-type", meter.den),
  );
}

function isFull(bar: SheetBar): boolean {
  return bar.meter !== undefined && compare(bar.length, bar.meter) === 0;
}

function modeName({ mode }: Key): string {
  return mode.endsWith(" minor") ? "minor" : mode;
}

function sameSignature(a: Key, b: Key | undefined): boolean {
  return b !== undefined && fifthsOf(a) === fifthsOf(b) && modeName(a) === modeName(b);
}

/** 6/8 and 3/4 are as long, and not the same. */
function sameMeter(a: Fraction | undefined, b: Fraction | undefined): boolean {
  return a?.num === b?.num && a?.den === b?.den;
}

function leftBarline(bar: SheetBar, before: SheetBar | undefined): Node {
  const { role } = bar;
  const begins =
    before === undefined ||
    before.role.kind !== role.kind ||
    before.repeat !== bar.repeat ||
    !sameEnding(bar, before);
  if (!begins || role.kind === "plain") return undefined;
  if (role.kind === "repeat") {
    return element(
      "barline",
      { location: "left" },
      textElement("bar-style", "heavy-light"),
      element("repeat", { direction: "forward" }),
    );
  }
  return element("barline", { location: "left" }, element("ending", { number: role.number, type: "start" }));
}

function rightBarline(bar: SheetBar, after: SheetBar | undefined): Node {
  const { role } = bar;
  const ends =
    after === undefined ||
    after.role.kind !== role.kind ||
    after.repeat !== bar.repeat ||
    !sameEnding(bar, after);
  const backward = element("repeat", { direction: "backward" });
  if (role.kind === "ending" && ends) {
    const back = role.number === 1;
    return element(
      "barline",
      { location: "right" },
      back
        ? textElement("bar-style", "light-heavy")
        : after === undefined
          ? textElement("bar-style", "light-heavy")
          : undefined,
      element("ending", { number: role.number, type: back ? "stop" : "discontinue" }),
      back ? backward : undefined,
    );
  }
  if (role.kind === "repeat" && ends) {
    const goesOnToFirst =
      after?.role.kind === "ending" && after.role.number === 1 && after.repeat === bar.repeat;
    if (!goesOnToFirst) {
      return element("barline", { location: "right" }, textElement("bar-style", "light-heavy"), backward);
    }
  }
  if (after === undefined)
    return element("barline", { location: "right" }, textElement("bar-style", "light-heavy"));
  if (after.opens !== undefined) {
    return element("barline", { location: "right" }, textElement("bar-style", "light-light"));
  }
  return undefined;
}

function sameEnding(a: SheetBar, b: SheetBar): boolean {
  return a.role.kind !== "ending" || b.role.kind !== "ending" || a.role.number === b.role.number;
}

/** How many parts a quarter is divided into, so that every moment in every bar is a whole number of them. */
function divisionsOf({ bars }: Sheet): number {
  let divisions = 1;
  for (const bar of bars) {
    for (const { value } of bar.events) {
      const den = value.den / divisor(value.den, 4 * value.num);
      divisions = (divisions * den) / divisor(divisions, den);
      if (divisions > MOST_DIVISIONS) return MOST_DIVISIONS;
    }
  }
  return divisions;
}

function divisor(a: number, b: number): number {
  return b === 0 ? a : divisor(b, a % b);
}
