import { type Mode, tonicClass } from "../music/key";
import { midiOf } from "../music/pitch";
import { toNumber } from "../music/rhythm";
import type { Exercise, Rest } from "../plan/exercise";
import type { Player } from "../plan/player";
import { type LessonVerdict, verdictsOf } from "../plan/record";
import type { Settings } from "../plan/settings";
import {
  type Assignment,
  type Booking,
  type Change,
  type ChangeWhen,
  inDays,
  type Session,
  type SessionContent,
  type Term,
  type WeeksPlan,
} from "../plan/term";
import type { Trouble } from "../plan/trouble";
import { lasting, loadOf, type Profile, profileOf, upperOf } from "../profile/profile";
import { cellsThatFit, easedTimes, grown, grownSeconds, timesThatFit } from "./amount";
import type { Day, DayItem, DaySession, DayState, Pass, PlayerTerm, Sums } from "./day";
import { folded, movedPlacement, type Placement, type Travel, travelOf } from "./placement";
import { StretchMeter } from "./stretch-meter";
import { isPracticeDay, type TaughtWeeks, taughtWeeks } from "./taught-weeks";
import type { DaysPlan } from "./term-ground";

/** Unrolls a term for one player, day by day. Exercises that do not exist are passed over (and noted elsewhere). */
export function unrollTerm(plan: DaysPlan, term: Term, player: Player): PlayerTerm {
  return new Unroller(plan, term, player).unroll();
}

interface AskedTempo {
  readonly wholeSeconds: number;
  readonly bpm: number | undefined;
  readonly fastest: number | undefined;
}

/** What an assignment asks in one week of its block, whatever the day. */
interface Asked {
  readonly exercise: Exercise;
  /** The week within the block, from 0, and how many the block has. */
  readonly index: number;
  readonly weeks: number;
  readonly tempo: AskedTempo;
  /** Seconds of one time through, and of the rest after it. */
  readonly play: number;
  readonly rest: number;
  /** Items of full days by where the walk stood, and how far each moves it. */
  readonly items: Map<number, { readonly item: DayItem; readonly moves: number }>;
}

/** How far an assignment has walked. */
interface Walk {
  exercise: Exercise;
  travel: Travel;
  /** Placements played so far, counted on through all rounds. */
  position: number;
  asked: Asked | undefined;
}

class Unroller {
  private readonly settings: Settings;
  private readonly weeks: TaughtWeeks;
  private readonly upperLine: number;
  private readonly verdicts: readonly LessonVerdict[];
  private readonly changes: readonly Change[];
  private readonly walks = new Map<Assignment, Walk>();
  private readonly restarts = new Map<Assignment, PlayerTerm["restarts"][number]>();
  private readonly troubles: Trouble[] = [];
  private readonly blockWeeks = new Map<WeeksPlan, readonly number[]>();
  private readonly blocksByWeek: (readonly WeeksPlan[])[] = [];
  private readonly overlaps: PlayerTerm["overlaps"][number][] = [];
  private readonly strays: PlayerTerm["strays"][number][] = [];
  private readonly concertDays: number[] = [];

  constructor(
    private readonly plan: DaysPlan,
    private readonly term: Term,
    private readonly player: Player,
  ) {
    this.settings = plan.settings;
    this.weeks = taughtWeeks(term);
    const { upperFrom } = player.figures;
    // Without an upper line nothing is upper: 128 lies above every note.
    this.upperLine = upperFrom === undefined ? 128 : midiOf(upperFrom.value);
    this.verdicts = verdictsOf(plan.records, term.name);
    this.changes = term.changes
      .filter((each) => each.player.text === player.name)
      .flatMap((each) => each.changes);
    for (const block of term.weeks) {
      const all = Array.from({ length: this.weeks.count }, (_, i) => i + 1);
      this.blockWeeks.set(block, block.weeks?.filter((week) => week <= this.weeks.count) ?? all);
    }
    for (let week = 1; week <= this.weeks.count; week++) {
      this.blocksByWeek[week] = term.weeks.filter((block) => this.blockWeeks.get(block)!.includes(week));
    }
    for (let date = term.dates.from; date <= term.dates.to; date++) {
      if (term.bookings.some((each) => each.kind === "concert" && isBooked(term, each, date))) {
        this.concertDays.push(date);
      }
    }
  }

  unroll(): PlayerTerm {
    const days: Day[] = [];
    for (let date = this.term.dates.from; date <= this.term.dates.to; date++) days.push(this.day(date));
    this.findStrays();
    return {
      term: this.term,
      player: this.player,
      days,
      weeks: this.weeks.count,
      troubles: this.troubles,
      unfinished: this.unfinished(),
      restarts: [...this.restarts.values()],
      overlaps: this.overlaps,
      strays: this.strays,
    };
  }

  private day(date: number): Day {
    const { term } = this;
    const week = this.weeks.weekOf(date);
    const practice = isPracticeDay(term, date);
    const closures = term.closures.filter((each) => date >= each.from && date <= each.to);
    const closed = closures.some((each) => each.how === "closed");
    const ill = this.changes.some((each) => each.kind === "ill" && within(each.dates, date));
    const light = closures.some((each) => each.how === "light");
    const half = this.changes.some((each) => each.kind === "half" && within(each.dates, date));
    const eased = this.isEased(date);
    let state: DayState = "practice";
    if (closed) state = "closed";
    else if (ill) state = "ill";
    else if (!practice) state = "free";
    else if (light) state = "light";
    const bookings =
      closed || ill
        ? []
        : this.bookingsOn(
            date,
            closures.some((each) => each.how === "no lesson"),
          );
    const sessions: DaySession[] = [];
    const easeShare = eased ? (term.ease?.share ?? 1) : 1;
    const share = easeShare * (half ? 0.5 : 1);
    if ((state === "practice" || state === "light") && week !== undefined) {
      const short = term.shortDays.some((days) => inDays(days, date));
      for (const block of this.blocksByWeek[week] ?? []) {
        for (const session of block.sessions) {
          if (!inDays(session.days, date)) continue;
          const clash = sessions.find((each) => each.session.name === session.name);
          if (clash !== undefined) {
            this.overlaps.push({ date, first: clash.session.place, second: session.place });
          }
          sessions.push(this.session(session, block, date, week, { short, light: state === "light", share }));
        }
      }
    }
    const lesson = bookings.some((each) => each.kind === "lesson");
    if (lesson) this.afterLesson(date);
    return {
      date,
      week,
      state,
      lesson,
      concert: bookings.find((each) => each.kind === "concert"),
      bookings,
      sessions,
      share: state === "light" ? share * 0.5 : share,
      totals: dayTotals(sessions, bookings),
    };
  }

  private isEased(date: number): boolean {
    const { ease } = this.term;
    return (
      ease !== undefined && this.concertDays.some((concert) => date < concert && date >= concert - ease.days)
    );
  }

  private bookingsOn(date: number, noLesson: boolean): readonly Booking[] {
    return this.term.bookings.filter(
      (each) => isBooked(this.term, each, date) && !(noLesson && each.kind === "lesson"),
    );
  }

  /** A session on one day: its short version, or itself at the day's share. */
  private session(
    session: Session,
    block: WeeksPlan,
    date: number,
    week: number,
    how: { readonly short: boolean; readonly light: boolean; readonly share: number },
  ): DaySession {
    const routine = session.routine === undefined ? undefined : this.plan.routines.get(session.routine.text);
    const full = routine === undefined ? session.content : contentOf(session.content, routine.content);
    const short = (how.short || how.light) && full.short !== undefined;
    const content: SessionContent = short ? full.short! : full;
    const share = how.share * (how.light && !short ? 0.5 : 1);
    const items: DayItem[] = [];
    const meter = new StretchMeter(this.settings.hornDown);
    const blockWeeks = this.blockWeeks.get(block)!;
    const growthIndex = blockWeeks.indexOf(week);
    const sums = { clock: 0, playing: 0, upper: 0, load: 0 };
    let trailingRest = 0;
    for (const planned of content.items) {
      if (!("exercise" in planned)) {
        meter.rest(planned.pause);
        sums.clock += planned.pause;
        trailingRest = 0;
        continue;
      }
      const item = this.item(planned, date, week, growthIndex, blockWeeks.length, share);
      if (item === undefined) continue;
      items.push(item);
      meter.item(item);
      addTo(sums, item);
      trailingRest = item.passes.length === 0 ? 0 : item.restAfter;
    }
    // Practice ends with the last note: the rest after it counts for nobody.
    return {
      session,
      content,
      short,
      items,
      clock: sums.clock - trailingRest,
      playing: sums.playing,
      upper: sums.upper,
      load: sums.load,
      stretch: meter.longest,
      stretchItem: meter.longestItem,
    };
  }

  private exerciseFor(assignment: Assignment, date: number, week: number): Exercise | undefined {
    // Changes speak of the exercise the line names, so that two may stand in for each other.
    const asked = assignment.exercise;
    let name = asked;
    for (const change of this.changes) {
      if (change.kind !== "replace" && change.kind !== "leave out") continue;
      if (change.exercise !== asked || !applies(change.when, date, week)) continue;
      if (change.kind === "leave out") return undefined;
      name = change.by;
    }
    return this.plan.exercises.get(name);
  }

  private item(
    assignment: Assignment,
    date: number,
    week: number,
    index: number,
    weeks: number,
    share: number,
  ): DayItem | undefined {
    const exercise = this.exerciseFor(assignment, date, week);
    if (exercise === undefined) return undefined;
    const walk = this.walkOf(assignment, exercise);
    let { asked } = walk;
    if (asked === undefined || asked.exercise !== exercise || asked.index !== index) {
      asked = this.ask(assignment, exercise, walk.travel, index, weeks);
      walk.asked = asked;
    }
    const start = walk.travel.pacing === "afresh" ? 0 : walk.position;
    // Most days of a week ask for the very same; those share one item.
    const known = share === 1 ? asked.items.get(start) : undefined;
    const made = known ?? this.measured(assignment, walk.travel, asked, start, share);
    if (known === undefined && share === 1) asked.items.set(start, made);
    this.advance(walk, made.moves, assignment, date);
    return made.item;
  }

  private measured(
    assignment: Assignment,
    travel: Travel,
    asked: Asked,
    start: number,
    share: number,
  ): { readonly item: DayItem; readonly moves: number } {
    const { exercise, tempo, rest, play } = asked;
    const { settings } = this;
    const { passes, moves } = passesFrom(assignment, exercise, travel, asked, start, share);
    const profile = this.profileFor(assignment, exercise, passes[0]?.placement.mode);
    let times = 0;
    let upper = 0;
    let load = 0;
    for (const pass of passes) {
      times += pass.times;
      const { semitones, mode } = pass.placement;
      // Keys of another mode have notes of their own.
      const here = mode === passes[0]!.placement.mode ? profile : this.profileFor(assignment, exercise, mode);
      upper += pass.times * lasting(upperOf(here, this.upperLine, semitones), tempo.wholeSeconds);
      load += pass.times * loadOf(here, settings, semitones, tempo.wholeSeconds);
    }
    const item = {
      assignment,
      exercise,
      profile,
      passes,
      wholeSeconds: tempo.wholeSeconds,
      bpm: tempo.bpm,
      fastest: tempo.fastest,
      restAfter: rest,
      clock: times * (play + rest),
      playing: times * lasting(profile.playing, tempo.wholeSeconds),
      upper,
      load,
    };
    return { item, moves };
  }

  private profileFor(assignment: Assignment, exercise: Exercise, mode: Mode | undefined): Profile {
    const { articulation, dynamic } = assignment;
    const { instrument } = this.player;
    return profileOf({ exercise, instrument, settings: this.settings, articulation, dynamic, mode });
  }

  private ask(
    assignment: Assignment,
    exercise: Exercise,
    travel: Travel,
    index: number,
    weeks: number,
  ): Asked {
    const tempo = this.tempoOf(assignment, exercise, index, weeks);
    const profile = this.profileFor(assignment, exercise, travel.placements[0]!.mode);
    const play = lasting(profile.playing, tempo.wholeSeconds) + lasting(profile.resting, tempo.wholeSeconds);
    const rest = this.restAfter(assignment.rest ?? exercise.rest, exercise, play);
    return { exercise, index, weeks, tempo, play, rest, items: new Map() };
  }

  private tempoOf(assignment: Assignment, exercise: Exercise, index: number, weeks: number): AskedTempo {
    const own = exercise.tempo;
    const beat = assignment.tempo?.beat ?? own?.beat;
    if (beat === undefined) return { wholeSeconds: 0, bpm: undefined, fastest: undefined };
    const asked = assignment.tempo?.bpm;
    const bpm = asked === undefined ? own!.bpm : grown(asked, index, weeks);
    const fastest = asked?.way === "choice" ? Math.max(asked.from, asked.to) : bpm;
    const slowest = asked?.way === "choice" ? Math.min(asked.from, asked.to) : bpm;
    return { wholeSeconds: 60 / (slowest * toNumber(beat)), bpm: slowest, fastest };
  }

  private restAfter(rest: Rest, exercise: Exercise, play: number): number {
    if (exercise.content.kind === "activity" && !exercise.content.loadsLips) return 0;
    const asked = rest.kind === "equal" ? play : rest.kind === "time" ? rest.seconds : 0;
    return Math.max(asked, this.settings.breathBetween);
  }

  private walkOf(assignment: Assignment, exercise: Exercise): Walk {
    const known = this.walks.get(assignment);
    if (known !== undefined) {
      if (known.exercise !== exercise) {
        // A change put another exercise in its place: the same keys lie elsewhere from another home.
        known.exercise = exercise;
        known.travel = travelOf(assignment, exercise, this.player.instrument);
      }
      return known;
    }
    const travel = travelOf(assignment, exercise, this.player.instrument);
    this.troubles.push(...travel.troubles);
    if (travel.pacing === "when passed" && !this.term.bookings.some((each) => each.kind === "lesson")) {
      this.troubles.push({ kind: "when-passed-no-lesson", place: assignment.place, exercise: exercise.name });
    }
    if (
      exercise.series !== undefined &&
      exercise.series.cells === undefined &&
      assignment.amount.kind === "times"
    ) {
      this.troubles.push({ kind: "series-endless", place: assignment.place, exercise: exercise.name });
    }
    const walk: Walk = { exercise, travel, position: 0, asked: undefined };
    this.walks.set(assignment, walk);
    return walk;
  }

  private advance(walk: Walk, by: number, assignment: Assignment, date: number): void {
    const { all, placements, pacing, nextRound } = walk.travel;
    if (placements.length <= 1 || pacing !== "onward") return;
    const before = walk.position;
    walk.position += by;
    // The first day that begins a new round is when it starts over; a next round that is moved is
    // meant to come, and all the keys each day begin anew each day.
    if (!all && nextRound === 0 && before >= placements.length && !this.restarts.has(assignment)) {
      this.restarts.set(assignment, { assignment, keys: placements.length, date });
    }
  }

  /** Moves the walks that wait for a lesson on by one key, unless the record says it was not passed. */
  private afterLesson(date: number): void {
    for (const [assignment, walk] of this.walks) {
      const { travel } = walk;
      if (travel.pacing !== "when passed") continue;
      const tonic = placementAt(travel, walk.position);
      const verdict = this.verdicts.find(
        (each) =>
          each.date === date &&
          each.player === this.player.name &&
          (each.exercise === assignment.exercise || each.exercise === walk.exercise.name) &&
          (each.tonic === undefined || tonic.key === undefined || each.tonic === tonicClass(tonic.key)),
      );
      if (verdict?.passed !== false) walk.position++;
    }
  }

  private unfinished(): PlayerTerm["unfinished"] {
    const unfinished: PlayerTerm["unfinished"][number][] = [];
    for (const [assignment, { travel, position }] of this.walks) {
      if (travel.pacing === "afresh" || position >= travel.placements.length) continue;
      if (travel.placements.length > 1 && position > 0) {
        unfinished.push({ assignment, left: travel.placements.slice(position) });
      }
    }
    return unfinished;
  }

  /** Sessions asked for on days on which nobody practises. */
  private findStrays(): void {
    for (const block of this.term.weeks) {
      for (const session of block.sessions) {
        if (session.days.kind !== "dates") continue;
        for (const { date, place } of session.days.dates) {
          if (date < this.term.dates.from || date > this.term.dates.to) {
            this.strays.push({ date, place, why: "outside" });
          } else if (!isPracticeDay(this.term, date)) {
            const closed = this.term.closures.some((c) => c.how === "closed" && within(c, date));
            this.strays.push({ date, place, why: closed ? "closed" : "no practice" });
          }
        }
      }
    }
  }
}

function placementAt(travel: Travel, position: number): Placement {
  const { placements, nextRound } = travel;
  const round = Math.floor(position / placements.length);
  const placement = placements[position % placements.length]!;
  const moved = movedPlacement(placement, round * nextRound);
  return travel.folded ? folded(moved) : moved;
}

/** Which keys and how many times through, from where the walk stands, and how far it moves on. */
function passesFrom(
  assignment: Assignment,
  exercise: Exercise,
  travel: Travel,
  asked: Asked,
  start: number,
  share: number,
): { readonly passes: readonly Pass[]; readonly moves: number } {
  const { amount } = assignment;
  const { play, rest, index, weeks } = asked;
  const here = placementAt(travel, start);
  if (exercise.series !== undefined) {
    const { series } = exercise;
    const cells = (placement: Placement): readonly Pass[] =>
      seriesPasses(series, placement, amount, asked, share);
    // All the keys each day: the whole series in each. Minutes hold one key's series.
    if (!travel.all || amount.kind === "time") return { passes: cells(here), moves: 1 };
    const passes = travel.placements.flatMap((_, i) => cells(placementAt(travel, start + i)));
    return { passes, moves: travel.placements.length };
  }
  const one = !travel.all || travel.placements.length === 1;
  if (amount.kind === "time") {
    const fit = timesThatFit(grownSeconds(amount.seconds, index, weeks) * share, play, rest);
    if (one) return { passes: [{ placement: here, times: fit }], moves: 1 };
    const passes: Pass[] = [];
    for (let i = 0; i < fit; i++) passes.push({ placement: placementAt(travel, start + i), times: 1 });
    return { passes, moves: fit };
  }
  const times = grown(amount.times, index, weeks);
  if (one) return { passes: [{ placement: here, times: easedTimes(times, share) }], moves: 1 };
  const passes: Pass[] = [];
  let left = easedTimes(times * travel.placements.length, share);
  for (let i = 0; i < travel.placements.length && left > 0; i++) {
    const now = Math.min(times, left);
    passes.push({ placement: placementAt(travel, start + i), times: now });
    left -= now;
  }
  // All the keys each day: the walk has nowhere to go on to.
  return { passes, moves: travel.placements.length };
}

/** The cells of a series: one pass each, half steps apart. */
function seriesPasses(
  series: NonNullable<Exercise["series"]>,
  placement: Placement,
  amount: Assignment["amount"],
  asked: Asked,
  share: number,
): readonly Pass[] {
  const { play, rest, index, weeks } = asked;
  let cells = series.cells ?? 1;
  let rounds = 1;
  if (amount.kind === "time") {
    const fit = cellsThatFit(grownSeconds(amount.seconds, index, weeks) * share, play, rest);
    cells = series.cells === undefined ? fit : Math.min(fit, series.cells);
  } else {
    rounds = grown(amount.times, index, weeks);
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

/** A session that calls up a routine: the routine's work, with what the session adds to it. */
function contentOf(own: SessionContent, routine: SessionContent): SessionContent {
  return {
    minutes: own.minutes ?? routine.minutes,
    items: [...routine.items, ...own.items],
    short: own.short ?? routine.short,
    aims: [...own.aims, ...routine.aims],
    goals: [...own.goals, ...routine.goals],
    lets: [...own.lets, ...routine.lets],
  };
}

/** Whether a booking falls on a day; "every day" is every day of practice. */
function isBooked(term: Term, booking: Booking, date: number): boolean {
  if (booking.within !== undefined && !within(booking.within, date)) return false;
  return inDays(booking.days, date) && (booking.days.kind !== "every day" || isPracticeDay(term, date));
}

function within(span: { readonly from: number; readonly to: number }, date: number): boolean {
  return date >= span.from && date <= span.to;
}

function applies(when: ChangeWhen, date: number, week: number): boolean {
  if ("dates" in when) return within(when.dates, date);
  return when.weeks === undefined || when.weeks.includes(week);
}

type Writable<T> = { -readonly [K in keyof T]: T[K] };

function addTo(sums: Writable<Sums>, more: Sums): void {
  sums.clock += more.clock;
  sums.playing += more.playing;
  sums.upper += more.upper;
  sums.load += more.load;
}

function dayTotals(sessions: readonly DaySession[], bookings: readonly Booking[]): Day["totals"] {
  const totals = { clock: 0, playing: 0, upper: 0, load: 0, stretch: 0 };
  for (const session of sessions) {
    addTo(totals, session);
    totals.stretch = Math.max(totals.stretch, session.stretch);
  }
  // Bookings ask for the same lips, but a clock budget counts practice alone.
  for (const { asks } of bookings) {
    totals.playing += asks.playing;
    totals.upper += asks.upper;
    totals.load += asks.load;
    totals.stretch = Math.max(totals.stretch, asks.stretch);
  }
  return totals;
}
