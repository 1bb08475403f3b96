import type { Day, DaySession, PlayerTerm, Sums } from "../days/day";
import type { Player } from "../plan/player";
import { weekTotals } from "../totals/week";

export type Grain = "session" | "day" | "week" | "term";

export const GRAINS: readonly Grain[] = ["session", "day", "week", "term"];

export interface Figure {
  readonly value: number;
  /** The most that is allowed; undefined where nothing is said. */
  readonly budget: number | undefined;
}

/** The totals of one stretch of time for one player. Seconds; points for the load. */
export interface TotalsRow {
  readonly term: string;
  readonly player: string;
  readonly week: number | undefined;
  readonly date: number | undefined;
  readonly session: string | undefined;
  /** What is special about a day: closed, light, ill, a lesson, a concert. */
  readonly remark: string;
  readonly days: number;
  readonly clock: Figure;
  readonly playing: Figure;
  readonly upper: Figure;
  readonly stretch: Figure;
  readonly load: Figure;
}

/** The rows of a player's term at one grain, in the order of time. */
export function totalsRows(term: PlayerTerm, grain: Grain, week: number | undefined): readonly TotalsRow[] {
  const days = term.days.filter((day) => week === undefined || day.week === week);
  switch (grain) {
    case "session":
      return days.flatMap((day) => day.sessions.map((session) => sessionRow(term, day, session)));
    case "day":
      return days.filter(hasAnything).map((day) => dayRow(term, day));
    case "week":
      return weekTotals(term)
        .filter((each) => week === undefined || each.week === week)
        .map((each) => ({
          ...blank(term),
          week: each.week,
          days: each.daysPlayed,
          ...figures(each, each.stretch, weekBudgets(term.player)),
        }));
    case "term":
      return [termRow(term, days)];
  }
}

function hasAnything(day: Day): boolean {
  return day.sessions.length > 0 || day.bookings.length > 0 || remarkOf(day) !== "";
}

function blank({ term, player }: PlayerTerm) {
  return {
    term: term.name,
    player: player.name,
    week: undefined,
    date: undefined,
    session: undefined,
    remark: "",
    days: 1,
  };
}

function sessionRow(term: PlayerTerm, day: Day, session: DaySession): TotalsRow {
  const budgets = { ...NO_BUDGETS, clock: session.content.minutes };
  return {
    ...blank(term),
    week: day.week,
    date: day.date,
    session: session.session.name,
    remark: session.short ? "short" : "",
    ...figures(session, session.stretch, budgets),
  };
}

function dayRow(term: PlayerTerm, day: Day): TotalsRow {
  return {
    ...blank(term),
    week: day.week,
    date: day.date,
    remark: remarkOf(day),
    ...figures(day.totals, day.totals.stretch, dayBudgets(term.player)),
  };
}

function termRow(term: PlayerTerm, days: readonly Day[]): TotalsRow {
  const sums = { clock: 0, playing: 0, upper: 0, load: 0 };
  let stretch = 0;
  let played = 0;
  for (const { totals } of days) {
    sums.clock += totals.clock;
    sums.playing += totals.playing;
    sums.upper += totals.upper;
    sums.load += totals.load;
    stretch = Math.max(stretch, totals.stretch);
    if (totals.playing > 0) played++;
  }
  return { ...blank(term), days: played, ...figures(sums, stretch, NO_BUDGETS) };
}

function remarkOf(day: Day): string {
  const words: string[] = [];
  if (day.state !== "practice" && day.state !== "free") words.push(day.state);
  words.push(...day.bookings.map((booking) => (booking.kind === "lesson" ? "lesson" : booking.name)));
  return words.join(", ");
}

type Budgets = { readonly [K in keyof Sums | "stretch"]: number | undefined };

const NO_BUDGETS: Budgets = {
  clock: undefined,
  playing: undefined,
  upper: undefined,
  stretch: undefined,
  load: undefined,
};

function dayBudgets({ figures: of }: Player): Budgets {
  return {
    clock: of.dayClock?.value,
    playing: of.dayPlaying?.value,
    upper: of.dayUpper?.value,
    stretch: of.dayStretch?.value,
    load: of.dayLoad?.value,
  };
}

function weekBudgets({ figures: of }: Player): Budgets {
  return {
    clock: of.weekClock?.value,
    playing: of.weekPlaying?.value,
    upper: of.weekUpper?.value,
    stretch: of.dayStretch?.value,
    load: of.weekLoad?.value,
  };
}

function figures(sums: Sums, stretch: number, budgets: Budgets) {
  return {
    clock: { value: sums.clock, budget: budgets.clock },
    playing: { value: sums.playing, budget: budgets.playing },
    upper: { value: sums.upper, budget: budgets.upper },
    stretch: { value: stretch, budget: budgets.stretch },
    load: { value: sums.load, budget: budgets.load },
  };
}
