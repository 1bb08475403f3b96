import { Memory } from "../../grammar/memory";
import type { Exercise, Series } from "../plan/exercise";
import type { Assignment } from "../plan/term";
import { cellsThatFit, easedTimes, timesThatFit } from "./amount";
import type { Pass } from "./day";
import { folded, movedPlacement, type Placement, type Travel } from "./placement";

/** How much an assignment asks in one week of its block. */
export interface WeekAsk {
  /** Times through in each key, or seconds of clock time. */
  readonly much: number;
  /** Seconds of one time through, and of the rest after it. */
  readonly play: number;
  readonly rest: number;
}

/** Where a walk stands after so many placements, counted on through all rounds. */
export function placementAt(travel: Travel, position: number): Placement {
  const { placements, nextRound } = travel;
  const round = Math.floor(position / placements.length);
  const placement = placements[position % placements.length]!;
  const moved = movedPlacement(placement, round * nextRound);
  return travel.folded ? folded(moved) : moved;
}

/** Which keys and how many times through, from where the walk stands; `share` is the part that is asked for. */
export function passesFrom(
  assignment: Assignment,
  exercise: Exercise,
  turns: Turns,
  asked: WeekAsk,
  start: number,
  share: number,
): readonly Pass[] {
  const { travel } = turns;
  const { amount } = assignment;
  if (exercise.series !== undefined) return seriesFrom(exercise.series, amount, travel, asked, start, share);
  const { much } = asked;
  const keys = travel.placements.length;
  const one = !travel.all || keys === 1;
  if (amount.kind === "time") {
    const fit = timesThatFit(much * share, asked.play, asked.rest);
    return one ? turns.from(start, 1, fit) : turns.from(start, fit, 1);
  }
  if (one) return turns.from(start, 1, easedTimes(much, share));
  return share === 1
    ? turns.from(start, keys, much)
    : asFarAs(easedTimes(much * keys, share), travel, start, much);
}

/** All the keys in turn, `times` each, until there were `left` times through. */
function asFarAs(left: number, travel: Travel, start: number, times: number): readonly Pass[] {
  const passes: Pass[] = [];
  for (let i = 0; i < travel.placements.length && left > 0; i++) {
    const now = Math.min(times, left);
    passes.push({ placement: placementAt(travel, start + i), times: now });
    left -= now;
  }
  return passes;
}

/**
 * The keys of a travel in turn. Weeks and assignments that travel alike ask for the same passes again and again,
 * and share one list.
 */
export class Turns {
  /** The lists that were asked for, by the position they start from. */
  private readonly byStart: (readonly (readonly Pass[])[] | undefined)[];

  constructor(readonly travel: Travel) {
    this.byStart = new Array<undefined>(travel.placements.length).fill(undefined);
  }

  /** So many keys in turn, each so many times through. */
  from(start: number, keys: number, times: number): readonly Pass[] {
    const before = this.byStart[start];
    if (before !== undefined) {
      for (const passes of before) if (passes.length === keys && passes[0]!.times === times) return passes;
    }
    const passes: Pass[] = [{ placement: placementAt(this.travel, start), times }];
    for (let i = 1; i < keys; i++) passes.push({ placement: placementAt(this.travel, start + i), times });
    this.byStart[start] = before === undefined ? [passes] : [...before, passes];
    return passes;
  }
}

const known = new Memory<Travel, Turns>();

/** The turns of a travel; kept with it. */
export function turnsOf(travel: Travel): Turns {
  let turns = known.get(travel);
  if (turns === undefined) {
    turns = new Turns(travel);
    known.set(travel, turns);
  }
  return turns;
}

function seriesFrom(
  series: Series,
  { kind }: Assignment["amount"],
  travel: Travel,
  asked: WeekAsk,
  start: number,
  share: number,
): readonly Pass[] {
  const cells = (position: number): readonly Pass[] =>
    seriesPasses(series, placementAt(travel, position), kind, asked, share);
  // All the keys each day: the whole series in each. Minutes hold one key's series.
  if (!travel.all || kind === "time") return cells(start);
  return travel.placements.flatMap((_, i) => cells(start + i));
}

/** The cells of a series: one pass each, half steps apart. */
function seriesPasses(
  series: Series,
  placement: Placement,
  by: Assignment["amount"]["kind"],
  { much, play, rest }: WeekAsk,
  share: number,
): readonly Pass[] {
  let cells = series.cells ?? 1;
  let rounds = 1;
  if (by === "time") {
    const fit = cellsThatFit(much * share, play, rest);
    cells = series.cells === undefined ? fit : Math.min(fit, series.cells);
  } else {
    rounds = much;
    const all = easedTimes(cells * rounds, share);
    if (all < cells) {
      cells = all;
      rounds = 1;
    } else rounds = Math.floor(all / cells);
  }
  return Array.from({ length: cells }, (_, i) => ({
    placement: movedPlacement(placement, i * series.semitones),
    times: rounds,
  }));
}
