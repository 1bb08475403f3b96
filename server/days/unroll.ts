import { tonicClass } from "../music/key";
import { toNumber } from "../music/rhythm";
import type { Exercise, Rest } from "../plan/exercise";
import type { Player } from "../plan/player";
import { type LessonVerdict, verdictsOf } from "../plan/record";
import type { Settings } from "../plan/settings";
import type { Assignment, Booking, Change, ChangeWhen, Session, SessionContent, Term } from "../plan/term";
import type { Trouble } from "../plan/trouble";
import { lasting, loadOf, type Profile } from "../profile/profile";
import { grown, grownSeconds } from "./amount";
import { areTheFirst } from "./are-the-first";
import type { Day, DayItem, DaySession, DayState, PlayerTerm } from "./day";
import { dayTotals } from "./day-totals";
import { type Measure, measureOf, profileFor, upperSeconds } from "./measure";
import { passesFrom, placementAt, type Turns, turnsOf, type WeekAsk } from "./passes";
import type { Travel } from "./placement";
import { sharedTravel } from "./shared-travel";
import { StretchMeter } from "./stretch-meter";
import { type CalendarDay, type PlannedSession, type TermCalendar, termCalendar } from "./term-calendar";
import type { DaysPlan } from "./term-ground";

/** Unrolls a term for one player, day by day. Exercises that do not exist are passed over (and noted elsewhere). */
export function unrollTerm(plan: DaysPlan, term: Term, player: Player): PlayerTerm {
  return new Unroller(plan, term, player).unroll();
}

/** What an assignment asks in one week of its block, whatever the day. */
interface Asked extends WeekAsk {
  readonly exercise: Exercise;
  /** The last week of the block that asks for this, from 0. */
  index: number;
  readonly wholeSeconds: number;
  readonly bpm: number | undefined;
  readonly fastest: number | undefined;
  /** In the mode of the first key. */
  readonly profile: Profile;
  /** Items of full days by where the walk stood. */
  readonly items: (DayItem | undefined)[];
}

/** How far an assignment has walked. */
interface Walk {
  readonly assignment: Assignment;
  exercise: Exercise;
  travel: Travel;
  turns: Turns;
  /** Placements played so far, counted on through all rounds. */
  position: number;
  /** Whether anything about the assignment differs from week to week. */
  readonly grows: boolean;
  asked: Asked | undefined;
}

const NO_SESSIONS: readonly DaySession[] = [];
const NO_BOOKINGS: readonly Booking[] = [];

/** What is known of a session while its days are worked out. */
interface KnownSession {
  readonly content: SessionContent;
  /** By the places of the assignments in it, as far as they have begun. */
  readonly walks: (Walk | undefined)[];
  /** Those of its short version, if it has one. */
  readonly shortWalks: (Walk | undefined)[] | undefined;
  /** It as it last came. */
  before: DaySession | undefined;
}

function noWalks({ items }: SessionContent): (Walk | undefined)[] {
  return new Array<Walk | undefined>(items.length).fill(undefined);
}

class Unroller {
  private readonly settings: Settings;
  private readonly calendar: TermCalendar;
  private readonly measure: Measure;
  private readonly verdicts: readonly LessonVerdict[];
  private readonly changes: readonly Change[];
  /** Whether a change puts one exercise in another's place, or leaves one out. */
  private readonly swaps: boolean;
  private readonly hasLessons: boolean;
  private readonly walks = new Map<Assignment, Walk>();
  /** The walks that go on after a lesson. */
  private readonly waiting: Walk[] = [];
  private readonly restarts = new Map<Assignment, PlayerTerm["restarts"][number]>();
  private readonly troubles: Trouble[] = [];
  private readonly overlaps: PlayerTerm["overlaps"][number][] = [];
  private readonly known = new Map<Session, KnownSession>();
  /** Every distinct item, in the order they first come. */
  private readonly items: DayItem[] = [];
  /** The items of the session at hand; what lies beyond their number is left from others. */
  private readonly gathered: DayItem[] = [];
  /** The sessions of the day at hand, likewise. */
  private readonly comes: DaySession[] = [];
  private readonly meter: StretchMeter;

  constructor(
    private readonly plan: DaysPlan,
    private readonly term: Term,
    private readonly player: Player,
  ) {
    this.settings = plan.settings;
    this.calendar = termCalendar(term);
    this.meter = new StretchMeter(plan.settings.hornDown);
    this.measure = measureOf(plan.settings, player);
    this.verdicts = verdictsOf(plan.records, term.name).filter((each) => each.player === player.name);
    this.changes = term.changes
      .filter((each) => each.player.text === player.name)
      .flatMap((each) => each.changes);
    this.hasLessons = term.bookings.some(({ kind }) => kind === "lesson");
    this.swaps = this.changes.some(({ kind }) => kind === "replace" || kind === "leave out");
  }

  unroll(): PlayerTerm {
    const days = this.calendar.days.map((day) => this.day(day));
    return {
      term: this.term,
      player: this.player,
      days,
      items: this.items,
      weeks: this.calendar.weeks.count,
      troubles: this.troubles,
      unfinished: this.unfinished(),
      restarts: [...this.restarts.values()],
      overlaps: this.overlaps,
      strays: this.calendar.strays,
    };
  }

  private day(planned: CalendarDay): Day {
    const { date, week, light } = planned;
    let ill = false;
    let half = false;
    for (const change of this.changes) {
      if (change.kind === "ill") ill ||= within(change.dates, date);
      else if (change.kind === "half") half ||= within(change.dates, date);
    }
    let state: DayState = "practice";
    if (planned.closed) state = "closed";
    else if (ill) state = "ill";
    else if (!planned.practice) state = "free";
    else if (light) state = "light";
    const share = planned.ease * (half ? 0.5 : 1);
    const played = (state === "practice" || state === "light") && week !== undefined;
    const sessions = played ? this.sessions(planned, state === "light", share) : NO_SESSIONS;
    if (played && planned.overlaps.length > 0) this.overlaps.push(...planned.overlaps);
    const bookings = ill ? NO_BOOKINGS : planned.bookings;
    const lesson = planned.lesson && !ill;
    if (lesson) this.afterLesson(date);
    return {
      date,
      week,
      state,
      lesson,
      concert: ill ? undefined : planned.concert,
      bookings,
      sessions,
      share: state === "light" ? share * 0.5 : share,
      totals: dayTotals(sessions, bookings),
    };
  }

  private sessions(day: CalendarDay, light: boolean, share: number): readonly DaySession[] {
    const { comes } = this;
    const { length } = day.sessions;
    if (length === 0) return NO_SESSIONS;
    for (let i = 0; i < length; i++) comes[i] = this.session(day.sessions[i]!, day, light, share);
    return comes.slice(0, length);
  }

  private knownOf(session: Session): KnownSession {
    let known = this.known.get(session);
    if (known === undefined) {
      const content = this.contentOf(session);
      const { short } = content;
      known = { content, walks: noWalks(content), shortWalks: short && noWalks(short), before: undefined };
      this.known.set(session, known);
    }
    return known;
  }

  /** All of a session's work, its routine's first. */
  private contentOf({ content, routine }: Session): SessionContent {
    const work = routine === undefined ? undefined : this.plan.routines.get(routine.text);
    return work === undefined ? content : joined(content, work.content);
  }

  /** A session on one day: its short version, or itself at the day's share. */
  private session(
    { session, index, weeks }: PlannedSession,
    day: CalendarDay,
    light: boolean,
    dayShare: number,
  ): DaySession {
    const known = this.knownOf(session);
    const { before, shortWalks } = known;
    const short = (day.short || light) && shortWalks !== undefined;
    const walks = short ? shortWalks : known.walks;
    const content: SessionContent = short ? known.content.short! : known.content;
    const share = dayShare * (light && !short ? 0.5 : 1);
    const { gathered } = this;
    let count = 0;
    for (let i = 0; i < walks.length; i++) {
      let walk = walks[i];
      if (walk === undefined || this.swaps) {
        const planned = content.items[i]!;
        if (!("exercise" in planned)) continue;
        const exercise = this.exerciseFor(planned, day);
        if (exercise === undefined) continue;
        walk = this.walkOf(planned, exercise, walk);
        walks[i] = walk;
      }
      gathered[count++] = this.item(walk, day.date, index, weeks, share);
    }
    // A session that comes again with the very same items is the same all through.
    if (before !== undefined && before.short === short && areTheFirst(before.items, gathered, count)) {
      return before;
    }
    known.before = this.measuredSession(session, content, short, gathered.slice(0, count));
    return known.before;
  }

  private measuredSession(
    session: Session,
    content: SessionContent,
    short: boolean,
    items: readonly DayItem[],
  ): DaySession {
    const { meter } = this;
    meter.begin();
    let clock = 0;
    let playing = 0;
    let upper = 0;
    let load = 0;
    let trailingRest = 0;
    let next = 0;
    for (const planned of content.items) {
      if (!("exercise" in planned)) {
        meter.rest(planned.pause);
        clock += planned.pause;
        trailingRest = 0;
        continue;
      }
      const item = items[next];
      // What a change leaves out has no item.
      if (item === undefined || item.assignment !== planned) continue;
      next++;
      meter.item(item);
      clock += item.clock;
      playing += item.playing;
      upper += item.upper;
      load += item.load;
      trailingRest = item.passes.length === 0 ? 0 : item.restAfter;
    }
    // Practice ends with the last note: the rest after it counts for nobody.
    return {
      session,
      content,
      short,
      items,
      clock: clock - trailingRest,
      playing,
      upper,
      load,
      stretch: meter.longest,
      stretchItem: meter.longestItem,
    };
  }

  private exerciseFor(assignment: Assignment, { date, week }: CalendarDay): Exercise | undefined {
    // Changes speak of the exercise the line names, so that two may stand in for each other.
    const asked = assignment.exercise;
    let name = asked;
    for (const change of this.changes) {
      if (change.kind !== "replace" && change.kind !== "leave out") continue;
      if (change.exercise !== asked || !applies(change.when, date, week!)) continue;
      if (change.kind === "leave out") return undefined;
      name = change.by;
    }
    return this.plan.exercises.get(name);
  }

  private item(walk: Walk, date: number, index: number, weeks: number, share: number): DayItem {
    const { travel, exercise } = walk;
    let { asked } = walk;
    if (asked === undefined || asked.exercise !== exercise || (walk.grows && asked.index !== index)) {
      asked = this.ask(walk, index, weeks);
      asked.index = index;
      walk.asked = asked;
    }
    let start = travel.pacing === "afresh" ? 0 : walk.position;
    // Where rounds are all alike, the same key is the same work.
    if (travel.nextRound === 0) start %= travel.placements.length;
    // Most days ask for what another day asked for; those share one item.
    let item = share === 1 ? asked.items[start] : undefined;
    if (item === undefined) {
      item = this.measured(walk, asked, start, share);
      this.items.push(item);
      if (share === 1) asked.items[start] = item;
    }
    this.advance(walk, item, date);
    return item;
  }

  private measured({ assignment, travel, turns }: Walk, asked: Asked, start: number, share: number): DayItem {
    const { exercise, wholeSeconds, bpm, fastest, rest, play } = asked;
    const { settings, measure } = this;
    const passes = passesFrom(assignment, exercise, turns, asked, start, share);
    const usual = travel.placements[0]!.mode;
    const first = passes[0]?.placement.mode;
    const profile = first === usual ? asked.profile : profileFor(assignment, exercise, first, measure);
    let times = 0;
    let load = 0;
    for (const pass of passes) {
      times += pass.times;
      const { semitones, mode } = pass.placement;
      // Keys of another mode have notes of their own.
      const here = mode === first ? profile : profileFor(assignment, exercise, mode, measure);
      load += pass.times * loadOf(here, settings, semitones, wholeSeconds);
    }
    const item = {
      assignment,
      exercise,
      profile,
      passes,
      wholeSeconds,
      bpm,
      fastest,
      restAfter: rest,
      clock: times * (play + rest),
      playing: times * lasting(profile.playing, wholeSeconds),
      upper: 0,
      load,
    };
    item.upper = upperSeconds(item, measure);
    return item;
  }

  private ask(walk: Walk, index: number, weeks: number): Asked {
    const { assignment, exercise, travel, asked: before } = walk;
    const beat = assignment.tempo?.beat ?? exercise.tempo?.beat;
    const asked = beat === undefined ? undefined : assignment.tempo?.bpm;
    let bpm = beat === undefined ? undefined : exercise.tempo?.bpm;
    let fastest = bpm;
    if (asked?.way === "choice") {
      bpm = Math.min(asked.from, asked.to);
      fastest = Math.max(asked.from, asked.to);
    } else if (asked !== undefined) {
      bpm = grown(asked, index, weeks);
      fastest = bpm;
    }
    const { amount } = assignment;
    const much =
      amount.kind === "time" ? grownSeconds(amount.seconds, index, weeks) : grown(amount.times, index, weeks);
    const same = before?.exercise === exercise ? before : undefined;
    // What has not grown since the week before is asked for anew.
    if (same !== undefined && same.bpm === bpm && same.much === much) return same;
    const wholeSeconds = beat === undefined || bpm === undefined ? 0 : 60 / (bpm * toNumber(beat));
    const profile =
      same?.profile ?? profileFor(assignment, exercise, travel.placements[0]!.mode, this.measure);
    const play = lasting(profile.playing, wholeSeconds) + lasting(profile.resting, wholeSeconds);
    const rest = this.restAfter(assignment.rest ?? exercise.rest, exercise, play);
    const items = new Array<DayItem | undefined>(travel.placements.length).fill(undefined);
    return { exercise, index, wholeSeconds, bpm, fastest, much, profile, play, rest, items };
  }

  private restAfter(rest: Rest, exercise: Exercise, play: number): number {
    if (exercise.content.kind === "activity" && !exercise.content.loadsLips) return 0;
    const asked = rest.kind === "equal" ? play : rest.kind === "time" ? rest.seconds : 0;
    return Math.max(asked, this.settings.breathBetween);
  }

  private walkOf(assignment: Assignment, exercise: Exercise, begun: Walk | undefined): Walk {
    const known = begun ?? this.walks.get(assignment);
    if (known !== undefined) {
      if (known.exercise !== exercise) {
        // A change put another exercise in its place: the same keys lie elsewhere from another home.
        known.exercise = exercise;
        known.travel = sharedTravel(this.plan, assignment, exercise, this.player.instrument);
        known.turns = turnsOf(known.travel);
        this.letWait(known);
      }
      return known;
    }
    const travel = sharedTravel(this.plan, assignment, exercise, this.player.instrument);
    this.troubles.push(...travel.troubles);
    if (travel.pacing === "when passed" && !this.hasLessons) {
      this.troubles.push({ kind: "when-passed-no-lesson", place: assignment.place, exercise: exercise.name });
    }
    if (
      exercise.series !== undefined &&
      exercise.series.cells === undefined &&
      assignment.amount.kind === "times"
    ) {
      this.troubles.push({ kind: "series-endless", place: assignment.place, exercise: exercise.name });
    }
    if (assignment.tempo !== undefined && exercise.tempo === undefined && exercise.content.kind !== "notes") {
      const { place } = assignment.tempo;
      this.troubles.push({ kind: "no-tempo", place, exercise: exercise.name, why: exercise.content.kind });
    }
    const walk: Walk = {
      assignment,
      exercise,
      travel,
      turns: turnsOf(travel),
      position: 0,
      grows: grows(assignment),
      asked: undefined,
    };
    this.walks.set(assignment, walk);
    this.letWait(walk);
    return walk;
  }

  /** A walk that goes on when a lesson passed it waits for lessons, whichever of its exercises began it. */
  private letWait(walk: Walk): void {
    if (walk.travel.pacing === "when passed" && !this.waiting.includes(walk)) this.waiting.push(walk);
  }

  private advance(walk: Walk, { assignment, exercise, passes }: DayItem, date: number): void {
    const { all, placements, pacing, nextRound } = walk.travel;
    if (placements.length <= 1 || pacing !== "onward") return;
    const before = walk.position;
    if (!all) walk.position++;
    // All the keys each day: the walk has nowhere to go on to, unless minutes cut it short.
    else if (assignment.amount.kind === "times") walk.position += placements.length;
    else walk.position += exercise.series === undefined ? passes.length : 1;
    // The first day that begins a new round is when it starts over; a next round that is moved is
    // meant to come, and all the keys each day begin anew each day.
    if (!all && nextRound === 0 && before >= placements.length && !this.restarts.has(assignment)) {
      this.restarts.set(assignment, { assignment, keys: placements.length, date });
    }
  }

  /** Moves the walks that wait for a lesson on by one key, unless the record says it was not passed. */
  private afterLesson(date: number): void {
    for (const walk of this.waiting) {
      const { assignment, travel } = walk;
      // Another exercise in its place may travel otherwise.
      if (travel.pacing !== "when passed") continue;
      if (this.verdicts.length === 0) {
        walk.position++;
        continue;
      }
      const tonic = placementAt(travel, walk.position);
      const verdict = this.verdicts.find(
        (each) =>
          each.date === date &&
          (each.exercise === assignment.exercise || each.exercise === walk.exercise.name) &&
          (each.tonic === undefined || tonic.key === undefined || each.tonic === tonicClass(tonic.key)),
      );
      if (verdict?.passed !== false) walk.position++;
    }
  }

  private unfinished(): PlayerTerm["unfinished"] {
    const unfinished: PlayerTerm["unfinished"][number][] = [];
    for (const { assignment, travel, position } of this.walks.values()) {
      if (travel.pacing === "afresh" || position >= travel.placements.length) continue;
      if (travel.placements.length > 1 && position > 0) {
        unfinished.push({ assignment, left: travel.placements.slice(position) });
      }
    }
    return unfinished;
  }
}

/** A session that calls up a routine: the routine's work, with what the session adds to it. */
function joined(own: SessionContent, routine: SessionContent): SessionContent {
  return {
    minutes: own.minutes ?? routine.minutes,
    items: [...routine.items, ...own.items],
    short: own.short ?? routine.short,
    aims: [...own.aims, ...routine.aims],
    goals: [...own.goals, ...routine.goals],
    lets: [...own.lets, ...routine.lets],
  };
}

/** Whether the tempo or the amount of an assignment differs from week to week. */
function grows({ tempo, amount }: Assignment): boolean {
  const much = amount.kind === "time" ? amount.seconds : amount.times;
  return tempo?.bpm.way === "growth" || much.way === "growth";
}

function within(span: { readonly from: number; readonly to: number }, date: number): boolean {
  return date >= span.from && date <= span.to;
}

function applies(when: ChangeWhen, date: number, week: number): boolean {
  if ("dates" in when) return within(when.dates, date);
  return when.weeks === undefined || when.weeks.includes(week);
}
