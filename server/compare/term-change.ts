import { taughtWeeks } from "../days/taught-weeks";
import { termCalendar } from "../days/term-calendar";
import type { Player } from "../plan/player";
import type { Term } from "../plan/term";
import { areaChanges } from "./area-changes";
import type { Both, Goal, PracticeChange, TermChange } from "./comparison";
import { keyChanges } from "./key-changes";
import type { TermSide } from "./plan-side";
import { type Practice, practiceOf } from "./practice";
import { inBoth, onlyIn } from "./practised-changes";
import { tempoChanges } from "./tempo-changes";
import { weekChanges } from "./week-changes";

/** The new name of an exercise that was renamed, its own name otherwise; and the other way. */
export interface Renaming {
  readonly newName: (exercise: string) => string;
  readonly oldName: (exercise: string) => string;
}

/** What differs between two terms, week by taught week; undefined where nothing does. */
export function termChange({ before, after }: Both<TermSide>, renaming: Renaming): TermChange | undefined {
  const names = { before: new Set(namesOf(before)), after: new Set(namesOf(after)) };
  const goals = goalChanges(before.term, after.term);
  const dates = { before: before.term.dates, after: after.term.dates };
  const moved = dates.before.from !== dates.after.from || dates.before.to !== dates.after.to;
  const weeks = { before: taughtWeeksOf(before.term), after: taughtWeeksOf(after.term) };
  const change = {
    term: { before: before.term.name, after: after.term.name },
    dates: moved ? dates : undefined,
    taughtWeeks: weeks.before !== weeks.after ? weeks : undefined,
    goals,
    newPlayers: [...names.after].filter((name) => !names.before.has(name)).sort(),
    formerPlayers: [...names.before].filter((name) => !names.after.has(name)).sort(),
    practice: practiceChanges(before, after, renaming),
  };
  const differs =
    moved ||
    change.taughtWeeks !== undefined ||
    change.term.before !== change.term.after ||
    [goals.added, goals.dropped, change.newPlayers, change.formerPlayers, change.practice].some(
      (each) => each.length > 0,
    );
  return differs ? change : undefined;
}

function namesOf({ players }: TermSide): readonly string[] {
  return players.map((player) => player.name);
}

function taughtWeeksOf(term: Term): number {
  return termCalendar(term).weeks.count;
}

/** One change for all the players who meet both terms alike. */
function practiceChanges(before: TermSide, after: TermSide, renaming: Renaming): readonly PracticeChange[] {
  const partners = new Map(after.players.map((player) => [player.name, player]));
  const groups = new Map<Practice, Map<Practice, string[]>>();
  for (const player of before.players) {
    const partner = partners.get(player.name);
    if (partner === undefined) continue;
    const [was, is] = [practice(before, player), practice(after, partner)];
    const byAfter = groups.get(was) ?? new Map<Practice, string[]>();
    groups.set(was, byAfter);
    const names = byAfter.get(is);
    if (names === undefined) byAfter.set(is, [player.name]);
    else names.push(player.name);
  }
  // Players whose days differ may still be compared alike.
  const changes = new Map<string, PracticeChange>();
  for (const [was, byAfter] of groups) {
    for (const [is, players] of byAfter) {
      const change = practiceChange(was, is, renaming);
      if (change === undefined) continue;
      const key = JSON.stringify(change);
      const same = changes.get(key);
      changes.set(key, { ...change, players: [...(same?.players ?? []), ...players].sort() });
    }
  }
  return [...changes.values()].sort((a, b) => (a.players[0]! < b.players[0]! ? -1 : 1));
}

function practice(side: TermSide, player: Player): Practice {
  return practiceOf(side.unrolled(player));
}

function practiceChange(
  before: Practice,
  after: Practice,
  { newName, oldName }: Renaming,
): PracticeChange | undefined {
  const pairs = inBoth(before, after, newName);
  const change = {
    players: [],
    takenUp: onlyIn(after, (name) => before.exercises.has(oldName(name))),
    givenUp: onlyIn(before, (name) => after.exercises.has(newName(name))),
    areas: areaChanges(before, after),
    keys: keyChanges(pairs),
    tempi: tempoChanges(pairs),
    weeks: weekChanges(before, after),
  };
  return Object.values(change).some((list) => list.length > 0) ? change : undefined;
}

function goalChanges(before: Term, after: Term): TermChange["goals"] {
  const [was, is] = [goalsOf(before), goalsOf(after)];
  const without = (goals: readonly Goal[], others: readonly Goal[]): readonly Goal[] =>
    goals.filter((goal) => !others.some((other) => other.text === goal.text && other.week === goal.week));
  return { added: without(is, was), dropped: without(was, is) };
}

/** The term's own goals, those with a day by the taught week in which it lies. */
function goalsOf(term: Term): readonly Goal[] {
  const weeks = taughtWeeks(term);
  return term.goals
    .map(({ text, week, date }) => ({
      text,
      week: week ?? (date === undefined ? undefined : weeks.weekOf(date)),
    }))
    .sort((a, b) => (a.week ?? 0) - (b.week ?? 0) || (a.text < b.text ? -1 : 1));
}
