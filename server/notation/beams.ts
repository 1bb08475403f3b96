/** Which notes hang on one beam. */
import { add, compare, equals, type Fraction, fraction, subtract, toNumber, ZERO } from "../music/rhythm";
import { flagsOf, noteShape } from "./note-shape";
import { printedValue, type SheetEvent } from "./sheet";

const EIGHTH = fraction(1, 8);

/** One level of beam on one note, in MusicXML's words. */
export type BeamPart = "begin" | "continue" | "end" | "forward hook" | "backward hook";

/** For each event of a bar its beams, the first level (eighths) first; none where it has a flag or no stem. */
export function beamsOf(
  events: readonly SheetEvent[],
  meter: Fraction | undefined,
  startsAt: Fraction,
): readonly (readonly BeamPart[])[] {
  const beams: BeamPart[][] = events.map(() => []);
  const flags = events.map((event) => (event.kind === "rest" ? 0 : flagsOf(noteShape(printedValue(event)))));
  for (const [from, to] of beamGroups(events, flags, meter, startsAt)) {
    for (let level = 1; level <= Math.max(...flags.slice(from, to)); level++) {
      for (let at = from; at < to; at++) {
        if ((flags[at] ?? 0) < level) continue;
        const before = at > from && (flags[at - 1] ?? 0) >= level;
        const after = at + 1 < to && (flags[at + 1] ?? 0) >= level;
        const part: BeamPart =
          before && after
            ? "continue"
            : after
              ? "begin"
              : before
                ? "end"
                : at === from
                  ? "forward hook"
                  : "backward hook";
        beams[at]?.push(part);
      }
    }
  }
  return beams;
}

/** Runs of at least two notes with flags inside one beat; a rest or a longer note parts them. */
function beamGroups(
  events: readonly SheetEvent[],
  flags: readonly number[],
  meter: Fraction | undefined,
  startsAt: Fraction,
): readonly (readonly [from: number, to: number])[] {
  const beat = beatFinder(events, meter, startsAt);
  const groups: (readonly [number, number])[] = [];
  let from = 0;
  let onset = startsAt;
  let group = -1;
  for (let at = 0; at <= events.length; at++) {
    const event = events[at];
    const here = event === undefined || (flags[at] ?? 0) === 0 ? -1 : beat(onset);
    if (here !== group || here === -1) {
      if (group !== -1 && at - from > 1) groups.push([from, at]);
      from = at;
      group = here;
    }
    if (event !== undefined) onset = add(onset, event.value);
  }
  return groups;
}

/**
 * Numbers the beats by where a note starts. Quarters part the beams; eighths alone are joined over half a bar
 * of 4/4 and over a whole bar of 3/4, and meters in eighths are parted by threes, or 5/8 and 7/8 with the
 * long beat first. Common practice of engraving.
 */
function beatFinder(
  events: readonly SheetEvent[],
  meter: Fraction | undefined,
  startsAt: Fraction,
): (onset: Fraction) => number {
  const quarter = fraction(1, 4);
  if (meter === undefined) return (onset) => Math.floor(toNumber(onset) * 4);
  if (meter.den >= 8) {
    const edges = edgesOfEighths(meter);
    return (onset) => edges.findLastIndex((edge) => compare(edge, onset) <= 0);
  }
  const half = fraction(1, 2);
  const joined =
    meter.num === 3 && meter.den === 4
      ? { num: 3, den: 4 }
      : meter.den === 2 || (meter.num % 2 === 0 && meter.den === 4)
        ? half
        : quarter;
  const size = toNumber(joined);
  // Joined wider than a quarter only where plain eighths, and nothing else, fill the wider beat.
  const eighths = new Map<number, number>();
  let onset = startsAt;
  for (const event of events) {
    const at = Math.floor(toNumber(onset) / size);
    const plain = event.kind === "note" && event.tuplet === undefined && equals(event.value, EIGHTH);
    eighths.set(at, plain ? (eighths.get(at) ?? 0) + 1 : Number.NEGATIVE_INFINITY);
    onset = add(onset, event.value);
  }
  return (at) => {
    const wide = Math.floor(toNumber(at) / size);
    // Numbers of wide beats are kept apart from those of quarters.
    return eighths.get(wide) === size * 8 ? -2 - wide : Math.floor(toNumber(at) * 4);
  };
}

/** Where the beats of a meter in eighths (or shorter) begin. */
function edgesOfEighths(meter: Fraction): readonly Fraction[] {
  const edges: Fraction[] = [];
  let left = meter.num;
  let at = ZERO;
  const step = (count: number): void => {
    edges.push(at);
    at = add(at, fraction(count, meter.den));
    left -= count;
  };
  // Threes, the last four or two by twos: 5/8 is 3 + 2, 7/8 is 3 + 2 + 2, 9/8 three threes.
  while (left > 0) step(left === 4 || left < 3 ? Math.min(2, left) : 3);
  return edges;
}

/** Where a bar's first note starts, counted from the start of a full bar: a pick-up starts late. */
export function barStart(length: Fraction, meter: Fraction | undefined, pickup: boolean): Fraction {
  if (!pickup || meter === undefined || compare(length, meter) > 0) return ZERO;
  return subtract(meter, length);
}
