import type { Player } from "../plan/player";
import type { FigureView } from "../protocol/requests";
import { minutes } from "../rules/words";

/** One player's figure and what is allowed of it, in seconds; no allowance where nothing was stated. */
export interface Measured {
  readonly player: Player;
  readonly value: number;
  readonly budget: number | undefined;
  /** The budget is only worked out from others, as a week's from its days': it is shown, and nobody is over it. */
  readonly workedOut?: boolean;
}

/** Half a second over is rounding, not overload: the rules of a day's budget allow as much. */
const ROUNDING = 0.5;

/** From this share of a budget on, a figure is said to be near it: nine tenths leave one more time through at most. */
const NEAR = 0.9;

/**
 * The figure of the player for whom a budget is the tightest, with the names of all for whom it is the same;
 * no names where it is the same for everybody. Undefined where nobody has a figure.
 */
export function tightest(
  name: FigureView["name"],
  all: readonly Measured[],
  text: (value: number, budget: number | undefined) => string = toTheSecond,
): FigureView | undefined {
  const first = all.toSorted(byTightness)[0];
  if (first === undefined) return undefined;
  const { value, budget } = first;
  const same = all.filter((each) => each.value === value && each.budget === budget);
  return {
    name,
    text: text(value, budget),
    share: shareOf(first),
    // Nothing at all is nobody's in particular.
    players: same.length === all.length || value === 0 ? [] : same.map((each) => each.player.name),
    standing: isOver(all) ? "over" : isNear(all) ? "near" : "within",
  };
}

function toTheSecond(value: number, budget: number | undefined): string {
  return budget === undefined ? minutes(value) : `${minutes(value)} of ${minutes(budget)}`;
}

function byTightness(a: Measured, b: Measured): number {
  // A figure without a budget presses on nobody.
  return (shareOf(b) ?? -1) - (shareOf(a) ?? -1) || b.value - a.value;
}

function shareOf({ value, budget }: Measured): number | undefined {
  if (budget === undefined) return undefined;
  // Nothing allowed and nothing played is as it should be.
  if (budget === 0) return value === 0 ? 0 : Number.MAX_SAFE_INTEGER;
  return value / budget;
}

/** Whether anybody's figure is over what is allowed. */
export function isOver(all: readonly Measured[]): boolean {
  return all.some(
    ({ value, budget, workedOut }) => workedOut !== true && budget !== undefined && value > budget + ROUNDING,
  );
}

/** Whether anybody's figure comes near to what is allowed. */
export function isNear(all: readonly Measured[]): boolean {
  return all.some((each) => each.workedOut !== true && (shareOf(each) ?? 0) >= NEAR);
}
