import { midiOf, pitchFromMidi, pitchSign } from "../../music/pitch";
import { spokenDate } from "../../plan/date";
import { itemName, prefersFlats } from "../contributions";
import type { Rule } from "../rule";
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
      report({
        place: first.assignment.place,
        message: `${spokenDate(day.date)}: the day begins with ${itemName(first)}, up to ${pitchSign(pitchFromMidi(top, prefersFlats(first.passes[0]?.placement)))}, already in the upper register of ${days.player.name}.`,
        date: day.date,
      });
    }
  },
};
