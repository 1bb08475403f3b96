/** Where the brackets of tuplets begin and end. */
import { add, compare, type Fraction, multiply, ZERO } from "../music/rhythm";
import { printedValue, type SheetEvent } from "./sheet";

/** For each event of a bar: whether a bracket begins and ends there. */
export interface TupletEdge {
  readonly starts: boolean;
  readonly ends: boolean;
}

const NONE: TupletEdge = { starts: false, ends: false };

/**
 * The brackets of one bar. What stands in one pair of brackets of the language may be several groups on
 * paper: twelve triplet eighths are four threes. They are parted wherever the shortest value times the number
 * of notes comes out; if it does not come out evenly, they stay one group.
 */
export function tupletEdges(events: readonly SheetEvent[]): readonly TupletEdge[] {
  const edges: TupletEdge[] = events.map(() => NONE);
  for (let from = 0; from < events.length; ) {
    const tuplet = events[from]?.tuplet;
    let to = from + 1;
    if (tuplet !== undefined) {
      while (to < events.length && events[to]?.tuplet === tuplet) to++;
      const run = events.slice(from, to);
      let at = from;
      for (const size of groupSizes(run.map(printedValue), tuplet.notes)) {
        edges[at] = { starts: true, ends: size === 1 };
        if (size > 1) edges[at + size - 1] = { starts: false, ends: true };
        at += size;
      }
    }
    from = to;
  }
  return edges;
}

function groupSizes(values: readonly Fraction[], notes: number): readonly number[] {
  let shortest = values[0] ?? ZERO;
  for (const value of values) if (compare(value, shortest) < 0) shortest = value;
  const whole = multiply(shortest, { num: notes, den: 1 });
  const sizes: number[] = [];
  let sum = ZERO;
  let size = 0;
  for (const value of values) {
    sum = add(sum, value);
    size++;
    const order = compare(sum, whole);
    if (order > 0) return [values.length];
    if (order === 0) {
      sizes.push(size);
      sum = ZERO;
      size = 0;
    }
  }
  return size === 0 ? sizes : [values.length];
}
