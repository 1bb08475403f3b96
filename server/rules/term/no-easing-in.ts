import type { Day, DayItem } from "../../days/day";
import { midiOf, pitchFromMidi, pitchSign } from "../../music/pitch";
import { spokenDate } from "../../plan/date";
import { itemName, prefersFlats } from "../contributions";
import type { Recurring, Rule } from "../rule";
import { topOf } from "./highest-last";

export const noEasingIn: Rule = {
  kind: "term",
  code: "no-easing-in",
  severity: "warning",
  title: "a day that begins in the upper register",
  reason: "Cold lips pushed high are how strains begin.",
  mend: "Begin with something in the middle or low register.",
  check: ({ days }, report) => {
    const { upperFrom } = days.player.figures;
    if (upperFrom === undefined) return;
    const line = midiOf(upperFrom.value);
    for (const day of days.days) {
      const first = day.sessions[0]?.items.find((item) => item.playing > 0);
      if (first === undefined) continue;
      const top = topOf(first);
      if (top === undefined || top < line) continue;
      report(beginsHigh(day, first, top, days.player.name));
    }
  },
};

function beginsHigh({ date }: Day, first: DayItem, top: number, player: string): Recurring {
  return {
    place: first.assignment.place,
    say: () => {
      const pitch = pitchSign(pitchFromMidi(top, prefersFlats(first.passes[0]?.placement)));
      const begins = `${spokenDate(date)}: the day begins with ${itemName(first)}`;
      return { message: `${begins}, up to ${pitch}, already in the upper register of ${player}.` };
    },
    date,
  };
}
