import type { Position } from "vscode-languageserver-types";
import type { PlayerTerm } from "../days/day";
import { mondayOf } from "../plan/date";
import type { Place } from "../plan/place";
import type { Term } from "../plan/term";
import type { DayView, Standing, TermView, WeekView } from "../protocol/requests";
import type { WeekTotals } from "../totals/week";
import type { Checked } from "../workspace/check-sources";
import { closureOf, dayView, shortDate, viewOf } from "./day-view";
import { fileOf, offsetOf, type Places } from "./lines-of";
import { playerTerms } from "./player-terms";
import { termAt } from "./term-at";
import { isNear, isOver, type Measured, tightest } from "./tightest";
import { weekAllowance, weekFigure, weeksOf } from "./week-figures";

const QUANTITIES = ["playing", "upper", "clock"] as const;

/**
 * The term around a position, week by week and day by day, with what it asks against what is allowed. Where several
 * play it, each figure is that of the player for whom it is the tightest. Undefined where the file holds no term.
 */
export function termView(
  checked: Checked,
  path: string,
  position: Position,
  places: Places,
): TermView | undefined {
  const file = fileOf(checked, path);
  const term = file === undefined ? undefined : termAt(file, offsetOf(file, position));
  if (file === undefined || term === undefined) return undefined;
  return termViewFor(checked, term, playerTerms(file.plan, term), places);
}

/** The same for some of those who play the term. */
export function termViewFor(
  checked: Checked,
  term: Term,
  players: readonly PlayerTerm[],
  places: Places,
): TermView {
  const totals = players.map(weeksOf);
  return {
    title: term.name,
    players: players.map((each) => each.player.name),
    place: viewOf(term.place, checked.homes, places),
    weeks: calendarWeeks(players).map((indexes) =>
      weekOf(indexes, { checked, places, term, players, totals }),
    ),
  };
}

interface Reading {
  readonly checked: Checked;
  readonly places: Places;
  readonly term: Term;
  readonly players: readonly PlayerTerm[];
  /** The taught weeks of each player. */
  readonly totals: readonly (readonly WeekTotals[])[];
}

/** The days of a term by calendar weeks, as indexes into each player's days. */
function calendarWeeks(players: readonly PlayerTerm[]): readonly (readonly number[])[] {
  const weeks = new Map<number, number[]>();
  for (const [index, { date }] of (players[0]?.days ?? []).entries()) {
    const monday = mondayOf(date);
    const week = weeks.get(monday);
    if (week === undefined) weeks.set(monday, [index]);
    else week.push(index);
  }
  return [...weeks.values()];
}

function weekOf(indexes: readonly number[], reading: Reading): WeekView {
  const { checked, places, term, players } = reading;
  const days = indexes.flatMap(
    (index) =>
      dayView(
        players.flatMap((each) => {
          const day = each.days[index];
          return day === undefined ? [] : [{ term: each, day }];
        }),
        checked.homes,
        places,
      ) ?? [],
  );
  const all = players[0]?.days ?? [];
  const first = all[indexes[0] ?? 0]!;
  const last = all[indexes.at(-1) ?? 0]!;
  const dates = `${shortDate(first.date)} to ${shortDate(last.date)}`;
  const number = first.week;
  if (number === undefined) return closedWeek(indexes, dates, days, reading);
  const measured = QUANTITIES.map((name) => ({
    name,
    all: players.flatMap((each, index): Measured[] => {
      const week = reading.totals[index]?.[number - 1];
      return week === undefined ? [] : [measuredOf(each, week, name)];
    }),
  }));
  const over = measured.some(({ all }) => isOver(all));
  const near = measured.some(({ all }) => isNear(all));
  const place = placeOf(term, number);
  return {
    label: `Week ${number}`,
    dates,
    standing: over ? "over" : standingOf(days, near),
    remark: remarkOf(days),
    figures: measured.flatMap(({ name, all }) => tightest(name, all, weekFigure) ?? []),
    place: viewOf(place, checked.homes, places),
    days,
  };
}

/** A player's week against what is stated for weeks, or else against what its days may hold together. */
function measuredOf(term: PlayerTerm, week: WeekTotals, name: (typeof QUANTITIES)[number]): Measured {
  const { player } = term;
  const { weekClock, weekPlaying, weekUpper } = player.figures;
  const stated = { clock: weekClock, playing: weekPlaying, upper: weekUpper }[name]?.value;
  if (stated !== undefined || name === "clock") return { player, value: week[name], budget: stated };
  return { player, value: week[name], budget: weekAllowance(term, week, name), workedOut: true };
}

/** A week without a day of practice has no number; its reason stands in the number's place. */
function closedWeek(
  indexes: readonly number[],
  dates: string,
  days: readonly DayView[],
  { checked, places, term, players }: Reading,
): WeekView {
  const all = players[0]?.days ?? [];
  const closure = indexes
    .map((index) => closureOf(term, all[index]?.date ?? Number.NaN))
    .find((each) => each !== undefined);
  return {
    label: closure?.reason ?? "No practice",
    dates,
    standing: "closed",
    remark: "closed",
    figures: [],
    place: viewOf(closure?.place ?? term.place, checked.homes, places),
    // Bookings may fall into a holiday; the closed days themselves say nothing more.
    days: days.filter((day) => day.standing !== "closed"),
  };
}

/** The worst of a week's days, where the week itself keeps to its budget. */
function standingOf(days: readonly DayView[], near: boolean): Standing {
  if (days.some((day) => day.standing === "over")) return "over";
  if (days.some((day) => day.standing === "concert")) return "concert";
  if (near || days.some((day) => day.standing === "near")) return "near";
  const light = days.length > 0 && days.every((day) => day.standing === "light" || day.standing === "closed");
  return light ? "light" : "within";
}

function remarkOf(days: readonly DayView[]): string {
  const over = days.filter((day) => day.standing === "over").length;
  if (over === 0) return "";
  return over === 1 ? "1 day over" : `${over} days over`;
}

/** The first block that speaks of a week; the term where none does. */
function placeOf(term: Term, week: number): Place {
  const block =
    term.weeks.find((each) => each.weeks?.includes(week)) ??
    term.weeks.find((each) => each.weeks === undefined);
  return block?.place ?? term.place;
}
