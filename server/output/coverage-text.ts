import type { PlayerTerm } from "../days/day";
import { WEEKDAYS, weekdayOf } from "../plan/date";
import { coverageOf } from "../totals/coverage";
import { clockText } from "./numbers";
import { safeText } from "./safe-text";
import { tableText } from "./table";

/** What a term touches, for a person: keys of each exercise, days of each area, registers of each week. */
export function coverageText(term: PlayerTerm): string {
  const { keys, areas, registers } = coverageOf(term);
  const exercises = [...keys].map(([exercise, here]) => [
    safeText(exercise),
    [...here].map(([key, times]) => (key === "" ? `${times}` : `${key} ${times}`)).join(", "),
  ]);
  const days = [...areas].map(([area, dates]) => [
    safeText(area),
    String(dates.size),
    ...WEEKDAYS.map((_, weekday) => String([...dates].filter((date) => weekdayOf(date) === weekday).length)),
  ]);
  const weeks = registers.map((each) => [
    String(each.week),
    clockText(each.low),
    clockText(each.middle),
    clockText(each.high),
  ]);
  const text = (title: string) => ({ title, figures: false });
  const figure = (title: string) => ({ title, figures: true });
  return [
    `${safeText(term.term.name)}: ${safeText(term.player.name)}`,
    tableText([text("Exercise"), text("Times through, by key")], exercises),
    tableText([text("Area"), figure("Days"), ...WEEKDAYS.map(figure)], days),
    tableText([figure("Week"), figure("Below C4"), figure("C4 to B4"), figure("C5 and up")], weeks),
  ].join("\n\n");
}
