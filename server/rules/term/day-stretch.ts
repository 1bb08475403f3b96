import type { DayItem } from "../../days/day";
import { spokenDate } from "../../plan/date";
import type { Stated } from "../../plan/player";
import type { Settings } from "../../plan/settings";
import { itemName } from "../contributions";
import type { Recurring, Rule } from "../rule";
import { minutes } from "../words";

export const dayStretch: Rule = {
  kind: "term",
  code: "day-stretch",
  severity: "warning",
  title: "too long without the horn coming down",
  reason: "Lips need blood; without a rest they stiffen, and the player presses.",
  mend: "Give an exercise a rest (`rest equal`, `rest 20 s`), put `rest 1 min` between two, or play fewer times.",
  check: ({ days, plan }, report) => {
    const stated = days.player.figures.dayStretch;
    if (stated === undefined) return;
    for (const day of days.days) {
      for (const session of day.sessions) {
        const item = session.stretchItem;
        if (session.stretch <= stated.value + 0.5 || item === undefined) continue;
        report(tooLong(session.stretch, item, day.date, stated, days.player.name, plan.settings));
      }
    }
  },
};

function tooLong(
  stretch: number,
  item: DayItem,
  date: number,
  { value: most, place }: Stated<number>,
  player: string,
  { hornDown }: Settings,
): Recurring {
  return {
    place: item.assignment.place,
    say: () => {
      const long = `${spokenDate(date)}: ${minutes(stretch)} at a stretch for ${player}, of ${minutes(most)} at most`;
      return {
        message: `${long}. Most of it: ${itemName(item)}. A rest of ${hornDown} s or more lets the horn come down.`,
      };
    },
    related: place === undefined ? [] : [{ place, message: "the budget" }],
    date,
  };
}
