import type { DayItem } from "../../days/day";
import { midiOf, pitchFromMidi, pitchSign } from "../../music/pitch";
import { spokenDate } from "../../plan/date";
import { itemName, prefersFlats } from "../contributions";
import type { Rule } from "../rule";

/** Written MIDI number of the highest note of an item; undefined without notes. */
export function topOf(item: DayItem): number | undefined {
  const { high } = item.profile;
  if (high === undefined || item.passes.length === 0) return undefined;
  let most = Number.NEGATIVE_INFINITY;
  for (const pass of item.passes) most = Math.max(most, pass.placement.semitones);
  return high + most;
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
        let last: DayItem | undefined;
        let pitched = 0;
        let topBefore = Number.NEGATIVE_INFINITY;
        let top = Number.NEGATIVE_INFINITY;
        for (const item of session.items) {
          const here = topOf(item);
          if (here === undefined) continue;
          topBefore = Math.max(topBefore, top);
          top = here;
          last = item;
          pitched++;
        }
        // A tie with something earlier is no climb.
        if (last === undefined || pitched < 3 || top < midiOf(upperFrom.value) || topBefore >= top) continue;
        report({
          place: last.assignment.place,
          message: `${spokenDate(day.date)}: the highest note of the session, ${pitchSign(pitchFromMidi(top, prefersFlats(last.passes[0]?.placement)))}, comes in its last exercise, ${itemName(last)}.`,
          date: day.date,
        });
      }
    }
  },
};
