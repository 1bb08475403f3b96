import type { Day, PlayerTerm } from "../days/day";
import { clockText } from "../output/numbers";
import { dateText, spokenDate } from "../plan/date";
import type { Session, Term, WeeksPlan } from "../plan/term";
import type { PreviewView } from "../protocol/requests";
import { missingIn } from "./missing";
import { playerTerms } from "./player-terms";
import { dayFigures, termFigures, weekFigures } from "./preview-figures";
import { chosenFirst, type Ground, linked, NO_WEEKS } from "./preview-ground";
import { itemsOf } from "./preview-item";
import type { TermSubject } from "./term-subject";

/** A part of a term, or all of it, for the chosen player or else the first. Undefined where nobody plays it. */
export function termPartView(
  ground: Ground,
  term: Term,
  subject: TermSubject | undefined,
): PreviewView | undefined {
  const { chosen, file } = ground;
  const all = playerTerms(file.plan, term);
  const [own] = chosenFirst(all, chosen);
  if (own === undefined) return undefined;
  const players = all.map((each) => each.player.name);
  const day = subject === undefined ? undefined : dayOf(own, subject);
  switch (subject?.kind) {
    case "session": {
      // Who never meets it may still look at it.
      const meeting = chosenFirst(all, chosen).find((each) => dayOf(each, subject) !== undefined);
      const first = meeting === undefined ? undefined : dayOf(meeting, subject);
      if (meeting !== undefined && first !== undefined)
        return sessionView(ground, meeting, first, subject.session, players);
      return overview(ground, own, players);
    }
    case "date":
    case "booking":
    case "closure":
      return day === undefined ? overview(ground, own, players) : dayView(ground, own, day, players);
    case "weeks":
      return weekView(ground, own, subject.weeks, players);
    case undefined:
      return overview(ground, own, players);
  }
}

/** The first day that a part of the term speaks of; the day of a date even where nothing happens on it. */
function dayOf({ days }: PlayerTerm, subject: TermSubject): Day | undefined {
  return days.find((day) => speaksOf(subject, day));
}

function speaksOf(subject: TermSubject, day: Day): boolean {
  switch (subject.kind) {
    case "date":
      return day.date === subject.date;
    case "session":
      return day.sessions.some((each) => each.session === subject.session);
    case "booking":
      return day.bookings.includes(subject.booking);
    case "closure":
      return day.date >= subject.closure.from;
    case "weeks":
      return day.sessions.some((each) => subject.weeks.sessions.includes(each.session));
  }
}

function sessionView(
  ground: Ground,
  own: PlayerTerm,
  day: Day,
  session: Session,
  players: readonly string[],
): PreviewView {
  const met = day.sessions.find((each) => each.session === session);
  const minutes = met?.content.minutes;
  const clock = met === undefined ? "" : clockText(met.clock);
  return {
    kind: "session",
    title: session.name,
    under: [spokenDate(day.date), minutes === undefined ? clock : `${clock} of ${clockText(minutes)}`],
    place: linked(ground, session.place),
    ...NO_WEEKS,
    players,
    player: own.player.name,
    items: itemsOf(ground, own, met?.items ?? []),
    figures: dayFigures(ground, own, day),
    missing: missingIn(own.term.place.piece, ground.file.plan, ground.checked.homes, ground.places),
  };
}

function dayView(ground: Ground, own: PlayerTerm, day: Day, players: readonly string[]): PreviewView {
  const remarks = day.bookings.map((booking) => (booking.kind === "lesson" ? "lesson" : booking.name));
  return {
    kind: "day",
    title: spokenDate(day.date),
    under: [own.term.name, ...remarks],
    place: linked(ground, day.sessions[0]?.session.place ?? own.term.place),
    ...NO_WEEKS,
    players,
    player: own.player.name,
    items: itemsOf(
      ground,
      own,
      day.sessions.flatMap((each) => each.items),
    ),
    figures: dayFigures(ground, own, day),
    missing: [],
  };
}

function weekView(
  ground: Ground,
  own: PlayerTerm,
  { weeks: said, place }: WeeksPlan,
  players: readonly string[],
): PreviewView {
  const weeks = said ?? Array.from({ length: own.weeks }, (_, index) => index + 1);
  const week = weeks.find((each) => each === ground.week) ?? weeks[0] ?? 1;
  const days = own.days.filter((day) => day.week === week);
  const [first, last] = [days[0], days.at(-1)];
  const dates =
    first === undefined || last === undefined ? [] : [`${dateText(first.date)} to ${dateText(last.date)}`];
  return {
    kind: "week",
    title: `Week ${week}`,
    under: [own.term.name, ...dates],
    place: linked(ground, place),
    weeks,
    week,
    players,
    player: own.player.name,
    items: [],
    figures: weekFigures(ground, own, week),
    missing: [],
  };
}

function overview(ground: Ground, own: PlayerTerm, players: readonly string[]): PreviewView {
  return {
    kind: "term",
    title: own.term.name,
    under: [`${own.weeks} taught weeks`],
    place: linked(ground, own.term.place),
    ...NO_WEEKS,
    players,
    player: own.player.name,
    items: [],
    figures: termFigures(ground, own),
    missing: missingIn(own.term.place.piece, ground.file.plan, ground.checked.homes, ground.places),
  };
}
