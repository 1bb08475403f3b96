import { counted, minutes, quoted } from "../rules/words";
import type { BarChange, Either, Goal, KeyChange, Practised, TempoChange } from "./comparison";

/** Differences as a musician says them, without whatever page or terminal they are shown on. */

/** `bar 2 rewritten`, `bars 3 to 4 put in`, `bar 7 taken out`. */
export function barWords({ before, after }: BarChange): string {
  if (before.length === 0) return `${barNumbers(after)} put in`;
  if (after.length === 0) return `${barNumbers(before)} taken out`;
  const [was, is] = [barNumbers(before), barNumbers(after)];
  return was === is ? `${is} rewritten` : `${is} rewritten (before, ${was})`;
}

function barNumbers(bars: readonly number[]): string {
  const [first, last] = [bars[0] ?? 0, bars[bars.length - 1] ?? 0];
  if (first === last) return first === 0 ? "the pick-up" : `bar ${first}`;
  return first === 0 ? `the pick-up to bar ${last}` : `bars ${first} to ${last}`;
}

/** `tempo quarter = 88, was quarter = 80`. */
export function lineWords({ what, before, after }: Either<string> & { readonly what: string }): string {
  if (before === undefined) return `${what} ${after}, which was not said`;
  if (after === undefined) return `${what} not said any more, was ${before}`;
  return `${what} ${after}, was ${before}`;
}

/** `“by heart” by week 2`. */
export function goalWords({ text, week }: Goal): string {
  return week === undefined ? quoted(text) : `${quoted(text)} by week ${week}`;
}

/** When a goal was due. */
export function dueWords({ week }: Goal): string {
  return week === undefined ? "outside the taught weeks" : `week ${week}`;
}

/** `weeks 1 to 2, 4 times through, 1:12`. */
export function practisedWords({ from, to, times, clock }: Practised): string {
  const weeks = from === to ? `week ${from}` : `weeks ${from} to ${to}`;
  return `${weeks}, ${counted(times, "time")} through, ${minutes(clock)}`;
}

/** `39.1 %`. */
export function shareWords(share: number): string {
  return `${Math.round(share * 1000) / 10} %`;
}

/** Shares that read alike, or nearly, are not another balance to a teacher: half a point is, in a hundred. */
export function isAnotherBalance(before: number, after: number): boolean {
  return Math.abs(after - before) >= 0.005;
}

/** `quarter = 80 to 120, was 60 to 80`. */
export function tempoWords({ beat, before, after }: TempoChange): string {
  return `${beat} = ${tempi(after)}, was ${tempi(before)}`;
}

function tempi({ first, last }: { readonly first: number; readonly last: number }): string {
  const [from, to] = [Math.round(first * 10) / 10, Math.round(last * 10) / 10];
  return from === to ? String(from) : `${from} to ${to}`;
}

/** `D major in week 2, 1 week later`. */
export function keyWords({ key, before, after }: KeyChange): string {
  if (after === undefined) return `${key} no more (was week ${before})`;
  if (before === undefined) return `${key} new, in week ${after}`;
  const weeks = counted(Math.abs(after - before), "week");
  return `${key} in week ${after}, ${weeks} ${after < before ? "earlier" : "later"}`;
}

/** Key changes by the exercise they belong to, under its name of today. */
export function keysByExercise(keys: readonly KeyChange[]): ReadonlyMap<string, readonly KeyChange[]> {
  const byExercise = new Map<string, KeyChange[]>();
  for (const each of keys) {
    const known = byExercise.get(each.exercise.after);
    if (known === undefined) byExercise.set(each.exercise.after, [each]);
    else known.push(each);
  }
  return byExercise;
}

/** A goal that is only due in another week, told once; and those that came and went. */
export function goalsMoved({
  added,
  dropped,
}: {
  readonly added: readonly Goal[];
  readonly dropped: readonly Goal[];
}): {
  readonly fresh: readonly Goal[];
  readonly gone: readonly Goal[];
  readonly moved: readonly { readonly goal: Goal; readonly was: Goal }[];
} {
  const same = (goal: Goal, others: readonly Goal[]): Goal | undefined =>
    others.find((other) => other.text === goal.text);
  return {
    fresh: added.filter((goal) => same(goal, dropped) === undefined),
    gone: dropped.filter((goal) => same(goal, added) === undefined),
    moved: added.flatMap((goal) => {
      const was = same(goal, dropped);
      return was === undefined ? [] : [{ goal, was }];
    }),
  };
}
