import type { DayItem } from "../../days/day";
import { midiOf, pitchFromMidi, pitchSign } from "../../music/pitch";
import { spokenDate } from "../../plan/date";
import { itemName } from "../contributions";
import type { Rule } from "../rule";

/** Written MIDI number of the highest note of an item; undefined without notes. */
export function topOf(item: DayItem): number | undefined {
  const { high } = item.profile;
  if (high === undefined || item.passes.length === 0) return undefined;
  return high + Math.max(...item.passes.map((pass) => pass.placement.semitones));
}

export const highestLast: Rule = {
  kind: "term",
  code: "highest-last",
  severity: "note",
  title: "the highest work comes last",
  reason: "Tired lips reach for the high notes with pressure.",
  mend: "Put it in the middle, and end with something low and easy.",
  check: ({ days }, report) => {
    const { upperFrom } = days.player.figures;
    if (upperFrom === undefined) return;
    for (const day of days.days) {
      for (const session of day.sessions) {
        const pitched = session.items.filter((item) => topOf(item) !== undefined);
        const last = pitched[pitched.length - 1];
        if (last === undefined || pitched.length < 3) continue;
        const top = topOf(last)!;
        if (top < midiOf(upperFrom.value)) continue;
        // A tie with something earlier is no climb.
        if (pitched.slice(0, -1).some((item) => topOf(item)! >= top)) continue;
        report({
          place: last.assignment.place,
          message: `${spokenDate(day.date)}: the highest note of the session, ${pitchSign(pitchFromMidi(top, true))}, comes in its last exercise, ${itemName(last)}.`,
          date: day.date,
        });
      }
    }
  },
};
