import type { Day, PlayerTerm } from "../days/day";
import { dateText, WEEKDAYS, weekdayOf } from "../plan/date";
import type { Place } from "../plan/place";
import type { PlayerFigures } from "../plan/player";
import type { Closure, Term } from "../plan/term";
import type { DayView, FigureView, PlaceView, Standing } from "../protocol/requests";
import { contributions } from "../rules/contributions";
import { type Homes, locationOf, type Places } from "./lines-of";
import { isNear, isOver, type Measured, tightest } from "./tightest";

/** One day of a term as one of its players meets it. */
export interface PlayerDay {
  readonly term: PlayerTerm;
  readonly day: Day;
}

const QUANTITIES = [
  ["clock", "dayClock"],
  ["playing", "dayPlaying"],
  ["upper", "dayUpper"],
  ["stretch", "dayStretch"],
] as const satisfies readonly (readonly [FigureView["name"], keyof PlayerFigures])[];

const MONTHS = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"] as const;

/** A day without its year, as one says it in the middle of a term: `20 Oct`. */
export function shortDate(date: number): string {
  const [, month = 1, day = 1] = dateText(date).split("-").map(Number);
  return `${day} ${MONTHS[month - 1]}`;
}

/** The closure that a day falls under. */
export function closureOf(term: Term, date: number): Closure | undefined {
  return term.closures.find((each) => each.how !== "no lesson" && date >= each.from && date <= each.to);
}

/**
 * What a view shows of one day, for all who play the term: for each figure the player for whom it is the tightest.
 * Undefined where the day holds nothing at all: a day off, or one outside of the term.
 */
export function dayView(days: readonly PlayerDay[], homes: Homes, places: Places): DayView | undefined {
  const first = days[0];
  if (first === undefined || !days.some(({ term, day }) => holdsAnything(term.term, day))) return undefined;
  const { date } = first.day;
  const measured = QUANTITIES.map(([name, budget]) => ({ name, all: measuredOf(days, name, budget) }));
  const over = measured.find(({ all }) => isOver(all));
  const place = placeOf(days, over?.name);
  return {
    date: dateText(date),
    label: `${WEEKDAYS[weekdayOf(date)]} ${shortDate(date)}`,
    standing:
      over === undefined
        ? standingOf(
            days,
            measured.some(({ all }) => isNear(all)),
          )
        : "over",
    remark: remarkOf(days),
    figures: measured.flatMap(({ name, all }) => tightest(name, all) ?? []),
    place: place === undefined ? undefined : viewOf(place, homes, places),
  };
}

/** Where a place leads, as the protocol says it. */
export function viewOf(place: Place, homes: Homes, places: Places): PlaceView | undefined {
  return locationOf(homes, place, places);
}

function holdsAnything(term: Term, day: Day): boolean {
  if (day.sessions.length > 0 || day.bookings.length > 0) return true;
  // A Sunday inside the holidays would have been free anyhow.
  return (
    (day.state === "closed" || day.state === "ill") && (term.practice & (1 << weekdayOf(day.date))) !== 0
  );
}

function measuredOf(
  days: readonly PlayerDay[],
  name: FigureView["name"],
  budget: (typeof QUANTITIES)[number][1],
): readonly Measured[] {
  return days.map(({ term, day }) => ({
    player: term.player,
    value: day.totals[name],
    budget: term.player.figures[budget]?.value,
  }));
}

function standingOf(days: readonly PlayerDay[], near: boolean): Standing {
  const all = (state: Day["state"]): boolean => days.every(({ day }) => day.state === state);
  if (all("closed")) return "closed";
  if (all("ill")) return "ill";
  if (days.some(({ day }) => day.concert !== undefined)) return "concert";
  if (all("light")) return "light";
  return near ? "near" : "within";
}

/** What is special about the day, each thing once, whoever it holds for. */
function remarkOf(days: readonly PlayerDay[]): string {
  const words = new Set<string>();
  for (const { term, day } of days) {
    const closure = closureOf(term.term, day.date);
    if (closure !== undefined) words.add(closure.reason ?? closure.how);
    for (const booking of day.bookings) words.add(booking.kind === "lesson" ? "lesson" : booking.name);
    if (day.state === "ill") words.add(days.length === 1 ? "ill" : `${term.player.name} ill`);
    if (day.sessions.some((session) => session.short)) words.add("short");
  }
  return [...words].join(", ");
}

/**
 * The line that stands for a day: where a figure is over its budget, what adds most to it; else the first session,
 * the first booking, the closure.
 */
function placeOf(days: readonly PlayerDay[], over: FigureView["name"] | undefined): Place | undefined {
  if (over !== undefined) {
    for (const { term, day } of days) {
      if (!isOver([overFigure(term, day, over)])) continue;
      const place = heaviest(day, over);
      if (place !== undefined) return place;
    }
  }
  for (const { day } of days) {
    const session = day.sessions[0];
    if (session !== undefined) return session.session.place;
  }
  const first = days[0];
  if (first === undefined) return undefined;
  return first.day.bookings[0]?.place ?? closureOf(first.term.term, first.day.date)?.place;
}

function overFigure(term: PlayerTerm, day: Day, name: FigureView["name"]): Measured {
  const budget = QUANTITIES.find(([each]) => each === name)?.[1];
  const stated = budget === undefined ? undefined : term.player.figures[budget]?.value;
  return { player: term.player, value: day.totals[name], budget: stated };
}

/** What adds most to a figure of a day. */
function heaviest(day: Day, name: FigureView["name"]): Place | undefined {
  if (name === "stretch") {
    const longest = day.sessions.toSorted((a, b) => b.stretch - a.stretch)[0];
    return longest?.stretchItem?.assignment.place;
  }
  const most = contributions(day, name)[0];
  return most?.item === undefined ? most?.booking.place : most.item.assignment.place;
}
