import type { Finding } from "../rules/finding";

/**
 * What differs between two plans, as plain data: `before` is the first plan, `after` the second. Everything in
 * it is a difference; a plan beside itself gives a comparison with nothing in it. Lengths of time are seconds.
 */
export interface Comparison {
  readonly book: BookChanges;
  readonly players: PlayerChanges;
  readonly terms: TermChanges;
  readonly findings: FindingChanges;
}

/** Something on both sides. */
export interface Both<T> {
  readonly before: T;
  readonly after: T;
}

/** Something that one side may lack. */
export interface Either<T> {
  readonly before: T | undefined;
  readonly after: T | undefined;
}

/** The exercises as they are written, practised or not. */
export interface BookChanges {
  readonly added: readonly string[];
  readonly dropped: readonly string[];
  /** The same work under another name. */
  readonly renamed: readonly Both<string>[];
  readonly rewritten: readonly Rewriting[];
}

/** An exercise that is not written as it was. */
export interface Rewriting {
  readonly exercise: Both<string>;
  readonly bars: readonly BarChange[];
  /** What else it says: its area, tempo, rest … in musicians' words. */
  readonly lines: readonly (Either<string> & { readonly what: string })[];
}

/**
 * Bars that were put in the place of others. Bars count from 1, a pick-up is bar 0; an empty list before means
 * bars put in, an empty list after bars taken out.
 */
export type BarChange = Both<readonly number[]>;

export interface PlayerChanges {
  readonly added: readonly string[];
  readonly dropped: readonly string[];
  readonly changed: readonly {
    readonly player: string;
    readonly figures: readonly (Either<string> & { readonly what: string })[];
  }[];
}

export interface TermChanges {
  readonly added: readonly string[];
  readonly dropped: readonly string[];
  readonly changed: readonly TermChange[];
}

/** What differs between two terms that belong together. */
export interface TermChange {
  readonly term: Both<string>;
  /** Calendar days, where the term lies elsewhere. */
  readonly dates: Both<{ readonly from: number; readonly to: number }> | undefined;
  /** How many taught weeks there are, where that differs or one side has none. */
  readonly taughtWeeks: Both<number> | undefined;
  readonly goals: { readonly added: readonly Goal[]; readonly dropped: readonly Goal[] };
  /** Players who meet the term on one side only. */
  readonly newPlayers: readonly string[];
  readonly formerPlayers: readonly string[];
  /** For each group of players for whom the two terms differ in the same way. */
  readonly practice: readonly PracticeChange[];
}

export interface Goal {
  readonly text: string;
  /** The taught week by which it is due; undefined where its day lies in none. */
  readonly week: number | undefined;
}

/** How the practice of some players differs. */
export interface PracticeChange {
  readonly players: readonly string[];
  readonly takenUp: readonly Practised[];
  readonly givenUp: readonly Practised[];
  readonly areas: readonly AreaChange[];
  readonly keys: readonly KeyChange[];
  readonly tempi: readonly TempoChange[];
  /** Every taught week of either side where any of them differs; otherwise none. */
  readonly weeks: readonly WeekChange[];
}

export interface Practised {
  readonly exercise: string;
  /** Taught weeks from the first to the last in which it comes. */
  readonly from: number;
  readonly to: number;
  readonly times: number;
  readonly clock: number;
}

/** Clock time given to an area in the whole term, and its share of all of it (0 to 1). */
export type AreaChange = Both<{ readonly clock: number; readonly share: number }> & { readonly area: string };

/** The taught week in which an exercise first comes in a key; undefined where it never does. */
export type KeyChange = Either<number> & { readonly exercise: Both<string>; readonly key: string };

/** Beats to the minute in the exercise's own note value, in its first and its last week. */
export type TempoChange = Both<{ readonly first: number; readonly last: number }> & {
  readonly exercise: Both<string>;
  /** The note value counted, as musicians call it. */
  readonly beat: string;
};

export type WeekChange = Either<WeekFigures> & { readonly week: number };

export interface WeekFigures {
  readonly clock: number;
  readonly playing: number;
  readonly upper: number;
}

export interface FindingChanges {
  readonly gained: readonly Finding[];
  readonly lost: readonly Finding[];
  /** Found on both sides, and let stand on one of them. */
  readonly standsNow: readonly Finding[];
  readonly standsNoMore: readonly Finding[];
}

/** The same without the notes among the findings. */
export function withoutNotes(comparison: Comparison): Comparison {
  const serious = (findings: readonly Finding[]): readonly Finding[] =>
    findings.filter((each) => each.severity !== "note");
  const { gained, lost, standsNow, standsNoMore } = comparison.findings;
  // What is let stand is told as a note, and that it is so is a difference of its own.
  return {
    ...comparison,
    findings: { gained: serious(gained), lost: serious(lost), standsNow, standsNoMore },
  };
}

/** Whether nothing differs. */
export function isEmpty({ book, players, terms, findings }: Comparison): boolean {
  return [
    ...[book.added, book.dropped, book.renamed, book.rewritten],
    ...[players.added, players.dropped, players.changed],
    ...[terms.added, terms.dropped, terms.changed],
    ...[findings.gained, findings.lost, findings.standsNow, findings.standsNoMore],
  ].every((list) => list.length === 0);
}
