/** A melody as the text of an exercise, laid out in the one common way. */
import { format } from "../../grammar/format";
import { equals, type Fraction } from "../music/rhythm";
import type { Melody, MelodyBar, MelodyEvent } from "./melody";
import { noteShape } from "./note-shape";

/** A stretch of bars that the language puts between brackets, or that stands by itself. */
interface Stretch {
  readonly kind: "plain" | "repeat" | "ending 1" | "ending 2";
  readonly bars: MelodyBar[];
}

/** Names are kept on one line and hold no quotes or braces; a long one is a line of the score, not a name. */
const LONGEST_NAME = 80;
/** Signs to a line of music, its indent left aside: bars are kept whole. */
const LONGEST_LINE = 92;

/** The exercise, under the name and area given. */
export function melodyText(melody: Melody, name: string, area: string): string {
  const music = stretchesOf(melody.bars)
    .map(({ kind, bars }) => {
      const inside = barsText(bars);
      return kind === "plain" ? inside : `${kind} [\n${inside}\n]`;
    })
    .join("\n");
  return format(`exercise "${nameOf(name)}" {
  in "${nameOf(area)}"
  key ${melody.key}
  meter ${melody.meter}
  tempo ${melody.tempo.beat} = ${melody.tempo.bpm}
  music {
    ${melody.pickup ? "pickup " : ""}${music}
  }
}
`);
}

/** A text fit for a name between quotes: one line, no quotes or braces, no `#` that would begin a comment. */
export function nameOf(text: string): string {
  const plain = text
    .replace(/["“”„{}]/g, "")
    .replace(/[\s\p{Cc}]+/gu, " ")
    .replace(/#+(?= |$)/g, "")
    .replace(/ +/g, " ")
    .trim();
  return [...plain].slice(0, LONGEST_NAME).join("").trim() || "Melody";
}

/** Repeats and endings as the language has them; a repeat that never ends, or has no beginning, begins where it can. */
function stretchesOf(bars: readonly MelodyBar[]): readonly Stretch[] {
  const stretches: Stretch[] = [];
  let open: { kind: Stretch["kind"]; bars: MelodyBar[] } = { kind: "plain", bars: [] };
  const close = (): void => {
    if (open.bars.length > 0) stretches.push(open);
  };
  for (const bar of bars) {
    const kind = bar.ending === undefined ? undefined : (`ending ${bar.ending}` as const);
    if (bar.forward) {
      // A repeat that was begun and not ended is played once.
      if (open.kind === "repeat") open.kind = "plain";
      close();
      open = { kind: "repeat", bars: [] };
    } else if (kind !== undefined && open.kind !== kind) {
      // A first ending makes a repeat of what comes before it, as far as the last repeat.
      if (kind === "ending 1" && open.kind === "plain") open.kind = "repeat";
      close();
      open = { kind, bars: [] };
    } else if (kind === undefined && open.kind.startsWith("ending")) {
      close();
      open = { kind: "plain", bars: [] };
    }
    open.bars.push(bar);
    if (bar.backward && (open.kind === "plain" || open.kind === "repeat")) {
      open.kind = "repeat";
      close();
      open = { kind: "plain", bars: [] };
    }
  }
  if (open.kind === "repeat" && bars.at(-1)?.backward !== true) open.kind = "plain";
  close();
  return stretches;
}

function barsText(bars: readonly MelodyBar[]): string {
  const events = bars.flatMap((bar) => bar.events);
  const groups = tupletGroups(bars);
  const slurs = slurPlaces(events, groups);
  const lines: string[] = [];
  let value: Fraction | undefined;
  let at = 0;
  for (const bar of bars) {
    const words: string[] = [];
    if (bar.key !== undefined) words.push(`key ${bar.key}`);
    if (bar.meter !== undefined) words.push(`meter ${bar.meter}`);
    for (const event of bar.events) {
      const group = groups.get(at);
      if (slurs.opensOutside.has(at)) words.push("(");
      if (group?.first === at && event.tuplet !== undefined) words.push(tupletHead(event.tuplet));
      if (slurs.opensInside.has(at)) words.push("(");
      words.push(...event.before);
      if (value === undefined || !equals(value, event.value)) {
        value = event.value;
        words.push(valueText(value));
      }
      words.push(event.pitch, ...event.marks);
      if (event.tied) words.push("tie");
      if (slurs.closesInside.has(at)) words.push(")");
      if (group?.last === at) words.push("]");
      if (slurs.closesOutside.has(at)) words.push(")");
      if (event.breath) words.push("'");
      at++;
    }
    if (bar.events.length > 0) words.push("|");
    const text = words.join(" ");
    const line = lines.at(-1);
    if (line === undefined || line.length + text.length >= LONGEST_LINE) lines.push(text);
    else lines[lines.length - 1] = `${line} ${text}`;
  }
  return lines.join("\n");
}

interface Group {
  readonly first: number;
  last: number;
}

/** Tuplets by the numbers of their events: from bracket to bracket, or as long as the ratio stays, within a bar. */
function tupletGroups(bars: readonly MelodyBar[]): ReadonlyMap<number, Group> {
  const groups = new Map<number, Group>();
  let at = 0;
  for (const bar of bars) {
    let open: Group | undefined;
    let ratio = "";
    for (const event of bar.events) {
      if (event.tuplet === undefined) open = undefined;
      else {
        const own = tupletHead(event.tuplet);
        if (open === undefined || event.tupletStarts || own !== ratio) open = { first: at, last: at };
        open.last = at;
        ratio = own;
        groups.set(at, open);
      }
      at++;
    }
  }
  return groups;
}

interface SlurPlaces {
  readonly opensOutside: ReadonlySet<number>;
  readonly opensInside: ReadonlySet<number>;
  readonly closesInside: ReadonlySet<number>;
  readonly closesOutside: ReadonlySet<number>;
}

/**
 * Where the brackets of slurs stand. A slur lies within one tuplet, or takes in whole ones; one that would cross
 * a tuplet's bracket, or the end of a repeat, is drawn back to where it can be closed.
 */
function slurPlaces(events: readonly MelodyEvent[], groups: ReadonlyMap<number, Group>): SlurPlaces {
  const places = {
    opensOutside: new Set<number>(),
    opensInside: new Set<number>(),
    closesInside: new Set<number>(),
    closesOutside: new Set<number>(),
  };
  let from: number | undefined;
  events.forEach((event, at) => {
    if (event.slurEnds && from !== undefined) {
      place(from, at);
      from = undefined;
    }
    if (event.slurStarts) from = at;
  });
  return places;

  function place(first: number, last: number): void {
    if (first >= last) return;
    const [start, end] = [groups.get(first), groups.get(last)];
    if (start === end && start !== undefined && !(start.first === first && start.last === last)) {
      places.opensInside.add(first);
      places.closesInside.add(last);
      return;
    }
    if ((start !== undefined && start.first !== first) || (end !== undefined && end.last !== last)) return;
    // The next slur may begin where this one ends: the language gives each note one slur.
    if (places.closesOutside.has(first) || places.closesInside.has(first)) {
      if (groups.get(first) === undefined && groups.get(first + 1) === undefined && first + 1 < last)
        place(first + 1, last);
      return;
    }
    places.opensOutside.add(first);
    places.closesOutside.add(last);
  }
}

function tupletHead({ notes, inTimeOf }: { readonly notes: number; readonly inTimeOf: number }): string {
  return notes === 3 && inTimeOf === 2 ? "triplet [" : `${notes}:${inTimeOf} [`;
}

function valueText(value: Fraction): string {
  const shape = noteShape(value);
  return shape === undefined ? `${value.num}/${value.den}` : `1/${shape.base}${".".repeat(shape.dots)}`;
}
