import type { Day, DayItem, DaySession } from "../../days/day";
import type { Area } from "../../plan/area";
import { dateText } from "../../plan/date";
import type { SessionContent } from "../../plan/term";
import type { Rule } from "../rule";
import { sameExercises } from "../same-exercises";
import { counted, quoted } from "../words";

/** An area that is watched: how often it is meant, and how it goes so far. */
interface Watched {
  readonly area: Area;
  /** Full days that may pass without it. */
  readonly most: number;
  /** Those that have passed, and the date of the first. */
  gap: number;
  since: number;
  /** The last date on which it was touched. */
  last: number;
}

/** What a session touches, as its content last came. */
interface Touched {
  readonly items: readonly DayItem[];
  readonly areas: readonly Watched[];
}

export const areaUntouched: Rule = {
  kind: "term",
  code: "area-untouched",
  severity: "warning",
  title: "an area left alone for too long",
  reason: "Basics are kept by touching every area nearly every day.",
  mend: "Put one of its exercises into a session, or say how often it is meant: at least every 5 days",
  check: ({ days, plan }, report) => {
    // An area a term never touches is not for this level, unless the area says how often it is meant.
    const watched: readonly Watched[] = [...plan.areas.values()]
      .filter(
        ({ name, atLeastEvery }) =>
          atLeastEvery !== undefined || days.items.some(({ exercise }) => exercise.area === name),
      )
      .map((area) => ({
        area,
        most: area.atLeastEvery ?? plan.settings.untouched,
        gap: 0,
        since: 0,
        last: 0,
      }));
    const byName = new Map(watched.map((each) => [each.area.name, each]));
    const known = new Map<SessionContent, Touched>();
    for (const day of days.days) {
      for (const session of day.sessions) {
        for (const each of touchedBy(session, byName, known)) each.last = day.date;
      }
      const full = isFull(day);
      for (const each of watched) {
        if (each.last === day.date) each.gap = 0;
        else if (full) {
          if (each.gap === 0) each.since = day.date;
          each.gap++;
          if (each.gap !== each.most + 1) continue;
          report({
            place: days.term.place,
            message: `From ${dateText(each.since)} on, ${days.player.name} does not touch ${quoted(each.area.name)} for more than ${counted(each.most, "practice day")}.`,
            related: [{ place: each.area.place, message: "the area" }],
            date: each.since,
            apart: each.area.name,
          });
        }
      }
    }
  },
};

/** The watched areas that a session touches. On most days its content asks for what it asked for before. */
function touchedBy(
  { content, items }: DaySession,
  byName: ReadonlyMap<string, Watched>,
  known: Map<SessionContent, Touched>,
): readonly Watched[] {
  const before = known.get(content);
  if (before !== undefined && sameExercises(before.items, items)) return before.areas;
  const areas: Watched[] = [];
  for (const { exercise } of items) {
    const each = byName.get(exercise.area);
    if (each !== undefined && !areas.includes(each)) areas.push(each);
  }
  known.set(content, { items, areas });
  return areas;
}

/** Short, light, eased and concert days, and days without a session, count neither way. */
function isFull(day: Day): boolean {
  return (
    day.state === "practice" &&
    day.share === 1 &&
    day.concert === undefined &&
    day.sessions.length > 0 &&
    !day.sessions.some((session) => session.short)
  );
}
