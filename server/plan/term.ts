import type { Piece } from "../../grammar/piece";
import type {
  AskEntry,
  Assignment as AssignmentTree,
  Block,
  ChangeBlock,
  Clause,
  Count,
  Days,
  GoalField,
  KeysClause,
  Name,
  Range,
  RoutineDeclaration,
  SessionBlock,
  SessionItem,
  TermDeclaration,
  TermField,
  ValvesClause,
  Weeks,
  WeeksBlock,
  When,
} from "../../grammar/tree";
import type { Dynamic } from "../music/loudness";
import type { Fraction } from "../music/rhythm";
import { weekdayOf } from "./date";
import { type Articulation, type Rest, readArticulation, readRest } from "./exercise";
import { type LetStand, readLet } from "./let-stand";
import { listed, NONE } from "./listed";
import type { Place } from "./place";
import { firstSaid, Reader } from "./reader";

export interface DateSpan {
  readonly from: number;
  readonly to: number;
}

/** A value that is fixed, grows from week to week, or is the player's choice. */
export interface Growth {
  readonly way: "fixed" | "growth" | "choice";
  readonly from: number;
  readonly to: number;
}

export interface Goal {
  readonly text: string;
  readonly week: number | undefined;
  readonly date: number | undefined;
  readonly place: Place;
}

/** An exercise as it is asked for in a session. */
export interface Assignment {
  readonly tree: AssignmentTree;
  readonly exercise: string;
  readonly place: Place;
  /** The name alone, where "no such exercise" points. */
  readonly namePlace: Place;
  readonly keys: Extract<Clause, { kind: "in" }> | KeysClause | ValvesClause | undefined;
  readonly tempo:
    | { readonly beat: Fraction | undefined; readonly bpm: Growth; readonly place: Place }
    | undefined;
  /** Times through in each key, or seconds of clock time. */
  readonly amount:
    | { readonly kind: "times"; readonly times: Growth; readonly place: Place | undefined }
    | { readonly kind: "time"; readonly seconds: Growth; readonly place: Place };
  readonly articulation: Articulation | undefined;
  readonly dynamic: Dynamic | undefined;
  readonly rest: Rest | undefined;
  readonly dropWhenTired: boolean;
  readonly aims: readonly string[];
  readonly goals: readonly Goal[];
  readonly lets: readonly LetStand[];
}

export type PlannedItem = Assignment | { readonly pause: number; readonly place: Place };

export interface SessionContent {
  /** Seconds allowed; undefined where none were stated. */
  readonly minutes: number | undefined;
  readonly items: readonly PlannedItem[];
  readonly short: SessionContent | undefined;
  readonly aims: readonly string[];
  readonly goals: readonly Goal[];
  readonly lets: readonly LetStand[];
}

export interface Session {
  readonly name: string;
  readonly place: Place;
  readonly days: DaySet;
  readonly routine: Name | undefined;
  /** What the session itself says, beside the routine it may call up. */
  readonly content: SessionContent;
}

/** Weekdays as bits (Monday 1), single dates, or every day of practice. */
export type DaySet =
  | { readonly kind: "weekdays"; readonly set: number }
  | { readonly kind: "every day" }
  | { readonly kind: "dates"; readonly dates: readonly { readonly date: number; readonly place: Place }[] };

export interface WeeksPlan {
  readonly place: Place;
  /** Numbers of taught weeks, ascending; undefined for every week. */
  readonly weeks: readonly number[] | undefined;
  readonly sessions: readonly Session[];
  readonly aims: readonly string[];
  readonly lets: readonly LetStand[];
}

/** What a booking asks of the lips; undefined is nothing. Seconds; points for the load. */
export interface Asks {
  readonly clock: number;
  readonly playing: number;
  readonly upper: number;
  readonly stretch: number;
  readonly load: number;
}

export interface Booking {
  readonly name: string;
  readonly kind: "lesson" | "rehearsal" | "concert";
  readonly days: DaySet;
  readonly within: DateSpan | undefined;
  readonly asks: Asks;
  readonly place: Place;
}

export interface Closure extends DateSpan {
  readonly how: "closed" | "light" | "no lesson";
  readonly reason: string | undefined;
  readonly place: Place;
}

export type Change = { readonly place: Place } & (
  | {
      readonly kind: "replace";
      readonly exercise: string;
      readonly by: string;
      readonly when: ChangeWhen;
      readonly namePlace: Place;
      readonly byPlace: Place;
    }
  | {
      readonly kind: "leave out";
      readonly exercise: string;
      readonly when: ChangeWhen;
      readonly namePlace: Place;
    }
  | { readonly kind: "ill"; readonly dates: DateSpan }
  | { readonly kind: "half"; readonly dates: DateSpan }
);

export type ChangeWhen = { readonly weeks: readonly number[] | undefined } | { readonly dates: DateSpan };

export interface Term {
  readonly name: string;
  readonly place: Place;
  readonly declaration: TermDeclaration;
  readonly players: readonly Name[];
  readonly dates: DateSpan;
  readonly datesPlace: Place;
  /** Days of practice as bits, Monday 1. */
  readonly practice: number;
  readonly closures: readonly Closure[];
  readonly bookings: readonly Booking[];
  readonly shortDays: readonly DaySet[];
  readonly ease: { readonly days: number; readonly share: number } | undefined;
  readonly weeks: readonly WeeksPlan[];
  readonly changes: readonly { readonly player: Name; readonly changes: readonly Change[] }[];
  readonly aims: readonly string[];
  readonly goals: readonly Goal[];
  readonly lets: readonly LetStand[];
}

export interface Routine {
  readonly name: string;
  readonly place: Place;
  readonly content: SessionContent;
}

/** Monday to Saturday: the days of practice where a term names none. */
const USUAL_PRACTICE = 0b0111111;

/** The term a declaration stands for; undefined (and noted) where it has no dates. */
export function readTerm(
  piece: Piece,
  declaration: TermDeclaration,
): { term: Term | undefined; reader: Reader } {
  const reader = new Reader(piece);
  const said = new Map<string, Place>();
  const fields = (declaration.block?.items ?? []).filter((item) => item.kind !== "unread");
  const from = fields.find((field) => field.kind === "from");
  if (from === undefined) {
    reader.note({
      kind: "line-missing",
      place: reader.place(declaration.name),
      what: `the term “${declaration.name.text}”`,
      needs: "its first and last day",
      example: "from 2026-09-07 to 2026-12-11",
    });
    return { term: undefined, reader };
  }
  const dates = reader.dates(from.from, from.to, "dates of the term");
  if (dates === undefined) return { term: undefined, reader };
  const practiceField = fields.find((field) => field.kind === "practice");
  const practice =
    practiceField === undefined ? USUAL_PRACTICE : reader.weekdays(practiceField.days, 0b1111111);
  const closures: Closure[] = [];
  const bookings: Booking[] = [];
  const shortDays: DaySet[] = [];
  const weeks: WeeksPlan[] = [];
  const changes: { player: Name; changes: readonly Change[] }[] = [];
  const aims: string[] = [];
  const goals: Goal[] = [];
  const lets: LetStand[] = [];
  let ease: Term["ease"];
  for (const field of fields) readField(field);
  return {
    term: {
      name: declaration.name.text,
      place: reader.place(declaration.name),
      declaration,
      players: declaration.players,
      dates,
      datesPlace: reader.place(from),
      practice,
      closures,
      bookings,
      shortDays,
      ease,
      weeks,
      changes,
      aims,
      goals,
      lets,
    },
    reader,
  };

  function readField(field: TermField): void {
    switch (field.kind) {
      case "from":
      case "practice":
      case "ease":
        if (!firstSaid(reader, said, field.kind, field) || field.kind !== "ease") return;
        {
          const days = reader.number(field.days, "days of easing", 1, 60);
          const share = reader.share(field.to, "easing", 100);
          if (days !== undefined && share !== undefined) ease = { days, share };
        }
        return;
      case "aim":
        aims.push(field.text.text);
        return;
      case "goal":
        goals.push(readGoal(reader, field));
        return;
      case "let":
        lets.push(readLet(reader, field, declaration));
        return;
      case "closure": {
        const span = reader.dates(field.dates.from, field.dates.to, "dates");
        if (span === undefined) return;
        closures.push({ ...span, how: field.how, reason: field.reason?.text, place: reader.place(field) });
        return;
      }
      case "lesson":
        bookings.push({
          name: field.name?.text ?? "Lesson",
          kind: "lesson",
          days: readDays(reader, field.days),
          within: undefined,
          asks: readAsks(reader, field.asks),
          place: reader.place(field),
        });
        return;
      case "booked": {
        const within =
          field.within === undefined ? undefined : reader.dates(field.within.from, field.within.to, "dates");
        bookings.push({
          name: field.name.text,
          kind: field.concert ? "concert" : "rehearsal",
          days: readDays(reader, field.days),
          within,
          asks: readAsks(reader, field.asks),
          place: reader.place(field),
        });
        return;
      }
      case "short days":
        shortDays.push(readDays(reader, field.days));
        return;
      case "weeks":
        weeks.push(readWeeks(reader, field));
        return;
      case "change":
        changes.push({ player: field.player, changes: readChanges(reader, field) });
        return;
    }
  }
}

/** Reads a session kept under a name. */
export function readRoutine(
  piece: Piece,
  declaration: RoutineDeclaration,
): { routine: Routine; reader: Reader } {
  const reader = new Reader(piece);
  const minutes =
    declaration.minutes === undefined ? undefined : reader.seconds(declaration.minutes, "minutes");
  return {
    routine: {
      name: declaration.name.text,
      place: reader.place(declaration.name),
      content: readContent(reader, minutes, declaration.block, declaration),
    },
    reader,
  };
}

function readDays(reader: Reader, days: Days): DaySet {
  switch (days.kind) {
    case "every day":
      return { kind: "every day" };
    case "weekdays":
      return { kind: "weekdays", set: reader.weekdays(days, 0) };
    case "dates": {
      const dates: { date: number; place: Place }[] = [];
      for (const node of days.dates) {
        const date = reader.date(node);
        if (date !== undefined) dates.push({ date, place: reader.place(node) });
      }
      return { kind: "dates", dates };
    }
  }
}

/** Whether a day is in the set; "every day" means every day of practice and is left to the caller. */
export function inDays(days: DaySet, day: number): boolean {
  switch (days.kind) {
    case "every day":
      return true;
    case "weekdays":
      return (days.set & (1 << weekdayOf(day))) !== 0;
    case "dates":
      return days.dates.some((each) => each.date === day);
  }
}

function readAsks(reader: Reader, block: Block<AskEntry> | undefined): Asks {
  const asks = { clock: 0, playing: 0, upper: 0, stretch: 0, load: 0 };
  const shares: { what: "playing" | "upper"; share: number }[] = [];
  for (const entry of block?.items ?? []) {
    switch (entry.kind) {
      case "unread":
        break;
      case "asks time":
        asks[entry.what] = reader.seconds(entry.time, entry.what) ?? 0;
        break;
      case "asks load":
        asks.load = reader.number(entry.points, "load", 0, 10_000) ?? 0;
        break;
      case "asks share": {
        const share = reader.share(entry.share, entry.what, 100);
        if (share !== undefined) shares.push({ what: entry.what, share });
        break;
      }
    }
  }
  // A share is of the clock time, wherever in the block that stands.
  for (const { what, share } of shares) asks[what] = asks.clock * share;
  return asks;
}

/** Week numbers of `weeks 1 to 4, 6`; undefined for `every week`. */
function readWeekNumbers(reader: Reader, weeks: Weeks): readonly number[] | undefined {
  if (weeks.ranges === undefined) return undefined;
  const numbers: number[] = [];
  let ascending = true;
  for (const range of weeks.ranges) {
    const from = reader.number(range.from, "week", 1, 60);
    const to = range.to === undefined ? from : reader.number(range.to, "week", 1, 60);
    if (from === undefined || to === undefined) continue;
    if (from > to) {
      reader.note({
        kind: "upside-down",
        place: reader.place(range),
        what: "weeks",
        low: range.from.text,
        high: range.to?.text ?? range.from.text,
      });
      continue;
    }
    for (let week = from; week <= to; week++) {
      const last = numbers[numbers.length - 1];
      if (last !== undefined && week <= last) {
        if (numbers.includes(week)) continue;
        ascending = false;
      }
      numbers.push(week);
    }
  }
  return ascending ? numbers : numbers.sort((a, b) => a - b);
}

function readWeeks(reader: Reader, block: WeeksBlock): WeeksPlan {
  const sessions: Session[] = [];
  let aims: string[] | undefined;
  let lets: LetStand[] | undefined;
  for (const item of block.block?.items ?? NONE) {
    switch (item.kind) {
      case "unread":
        break;
      case "aim":
        aims = listed(aims, item.text.text);
        break;
      case "let":
        lets = listed(lets, readLet(reader, item, block));
        break;
      case "session":
        sessions.push(readSession(reader, item));
        break;
    }
  }
  return {
    place: reader.place(block.weeks),
    weeks: readWeekNumbers(reader, block.weeks),
    sessions,
    aims: aims ?? NONE,
    lets: lets ?? NONE,
  };
}

function readSession(reader: Reader, block: SessionBlock): Session {
  const minutes = block.minutes === undefined ? undefined : reader.seconds(block.minutes, "minutes");
  const head = {
    start: block.days.span.start,
    end: (block.minutes ?? block.routine ?? block.name ?? block.days).span.end,
  };
  return {
    name: block.name?.text ?? block.routine?.text ?? "Practice",
    place: { piece: reader.piece, span: head },
    days: readDays(reader, block.days),
    routine: block.routine,
    content: readContent(reader, minutes, block.block, block),
  };
}

function readContent(
  reader: Reader,
  minutes: number | undefined,
  block: Block<SessionItem> | undefined,
  owner: { readonly span: Place["span"] },
): SessionContent {
  const items: PlannedItem[] = [];
  let aims: string[] | undefined;
  let goals: Goal[] | undefined;
  let lets: LetStand[] | undefined;
  let short: SessionContent | undefined;
  for (const item of block?.items ?? NONE) {
    switch (item.kind) {
      case "unread":
        break;
      case "aim":
        aims = listed(aims, item.text.text);
        break;
      case "goal":
        goals = listed(goals, readGoal(reader, item));
        break;
      case "let":
        lets = listed(lets, readLet(reader, item, owner));
        break;
      case "assignment":
        items.push(readAssignment(reader, item));
        break;
      case "pause": {
        const pause = reader.seconds(item.time, "rest");
        if (pause !== undefined) items.push({ pause, place: reader.place(item) });
        break;
      }
      case "short":
        short = readContent(
          reader,
          item.minutes === undefined ? undefined : reader.seconds(item.minutes, "minutes"),
          item.block,
          item,
        );
        break;
    }
  }
  return { minutes, items, short, aims: aims ?? NONE, goals: goals ?? NONE, lets: lets ?? NONE };
}

function readGoal(reader: Reader, field: GoalField): Goal {
  return {
    text: field.text.text,
    week: "week" in field.by ? reader.number(field.by.week, "week", 1, 60) : undefined,
    date: "date" in field.by ? reader.date(field.by.date) : undefined,
    place: reader.place(field),
  };
}

type ReadCount = (reader: Reader, node: Count) => number | undefined;

const readBpm: ReadCount = (reader, node) => reader.bpm(node);
const readTimes: ReadCount = (reader, node) => reader.number(node, "times through", 1, 100);
const readMinutes: ReadCount = (reader, node) => {
  const minutes = reader.number(node, "minutes", 0.25, 240);
  return minutes === undefined ? undefined : minutes * 60;
};

function readGrowth(reader: Reader, range: Range, read: ReadCount): Growth | undefined {
  const from = read(reader, range.from);
  const to = range.to === undefined ? from : read(reader, range.to);
  return from === undefined || to === undefined ? undefined : { way: range.way, from, to };
}

const ONCE: Assignment["amount"] = {
  kind: "times",
  times: { way: "fixed", from: 1, to: 1 },
  place: undefined,
};

function readAssignment(reader: Reader, tree: AssignmentTree): Assignment {
  let keys: Assignment["keys"];
  let tempo: Assignment["tempo"];
  let amount = ONCE;
  let articulation: Articulation | undefined;
  let dynamic: Dynamic | undefined;
  let rest: Rest | undefined;
  let dropWhenTired = false;
  for (const clause of tree.clauses) {
    switch (clause.kind) {
      case "in":
      case "keys":
      case "valves":
        keys = clause;
        break;
      case "tempo": {
        const bpm = readGrowth(reader, clause.bpm, readBpm);
        const beat = clause.beat === undefined ? undefined : reader.value(clause.beat);
        if (bpm !== undefined) tempo = { beat, bpm, place: reader.place(clause) };
        break;
      }
      case "times": {
        const times = readGrowth(reader, clause.times, readTimes);
        if (times !== undefined) amount = { kind: "times", times, place: reader.place(clause) };
        break;
      }
      case "minutes": {
        const seconds = readGrowth(reader, clause.minutes, readMinutes);
        if (seconds !== undefined) amount = { kind: "time", seconds, place: reader.place(clause) };
        break;
      }
      case "articulation":
        articulation = readArticulation(clause.articulation);
        break;
      case "dynamic":
        dynamic = clause.dynamic;
        break;
      case "rest":
        rest = readRest(reader, clause.rest);
        break;
      case "drop when tired":
        dropWhenTired = true;
        break;
    }
  }
  let aims: string[] | undefined;
  let goals: Goal[] | undefined;
  let lets: LetStand[] | undefined;
  for (const item of tree.block?.items ?? NONE) {
    if (item.kind === "aim") aims = listed(aims, item.text.text);
    else if (item.kind === "goal") goals = listed(goals, readGoal(reader, item));
    else if (item.kind === "let") lets = listed(lets, readLet(reader, item, tree));
  }
  const namePlace = reader.place(tree.exercise);
  const start = tree.exercise.span.start;
  const end = tree.clauses[tree.clauses.length - 1]?.span.end ?? tree.exercise.span.end;
  return {
    tree,
    exercise: tree.exercise.text,
    // Without a block, and without words that stand far from what they belong to, that is all of it.
    place: reader.place({ span: tree.span.end === end ? tree.span : { start, end } }),
    namePlace,
    keys,
    tempo,
    amount,
    articulation,
    dynamic,
    rest,
    dropWhenTired,
    aims: aims ?? NONE,
    goals: goals ?? NONE,
    lets: lets ?? NONE,
  };
}

function readChanges(reader: Reader, block: ChangeBlock): readonly Change[] {
  const changes: Change[] = [];
  for (const item of block.block?.items ?? []) {
    if (item.kind === "unread") continue;
    const place = reader.place(item);
    switch (item.kind) {
      case "replace":
      case "leave out": {
        const when = readWhen(reader, item.when);
        if (when === undefined) break;
        const namePlace = reader.place(item.exercise);
        const exercise = item.exercise.text;
        if (item.kind === "leave out") changes.push({ kind: "leave out", exercise, when, namePlace, place });
        else {
          const byPlace = reader.place(item.by);
          changes.push({ kind: "replace", exercise, by: item.by.text, when, namePlace, byPlace, place });
        }
        break;
      }
      case "ill":
      case "back at half": {
        const dates = reader.dates(item.dates.from, item.dates.to, "dates");
        if (dates !== undefined) changes.push({ kind: item.kind === "ill" ? "ill" : "half", dates, place });
        break;
      }
    }
  }
  return changes;
}

function readWhen(reader: Reader, when: When): ChangeWhen | undefined {
  if (when === undefined) return { weeks: undefined };
  if ("weeks" in when) return { weeks: readWeekNumbers(reader, when.weeks) };
  const dates = reader.dates(when.dates.from, when.dates.to, "dates");
  return dates === undefined ? undefined : { dates };
}
