import type { DayItem } from "../../days/day";
import { midiOf, pitchFromMidi, pitchSign } from "../../music/pitch";
import { spokenDate } from "../../plan/date";
import { itemName, prefersFlats } from "../contributions";
import type { Recurring, Rule } from "../rule";

/** Written MIDI number of the highest note of an item; undefined without notes. */
export function topOf(item: DayItem): number | undefined {
  const { high } = item.profile;
  if (high === undefined || item.passes.length === 0) return undefined;
  let most = Number.NEGATIVE_INFINITY;
  for (const pass of item.passes) most = Math.max(most, pass.placement.semitones);
  return high + most;
}

interface Climb {
  readonly last: DayItem;
  /** Written MIDI number. */
  readonly top: number;
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
    const line = midiOf(upperFrom.value);
    for (const day of days.days) {
      for (const session of day.sessions) {
        const climb = climbOf(session.items, line);
        if (climb === undefined) continue;
        report(climbs(climb, day.date));
      }
    }
  },
};

/**
 * The last item with notes and its highest, where that lies in the upper register and above all that came before;
 * undefined otherwise, and where fewer than three have notes.
 */
function climbOf(items: readonly DayItem[], line: number): Climb | undefined {
  let last: DayItem | undefined;
  let top = 0;
  let pitched = 0;
  // Looked at from behind: most sessions end low, and then there is no more to ask.
  for (let i = items.length - 1; i >= 0; i--) {
    const item = items[i]!;
    const here = topOf(item);
    if (here === undefined) continue;
    pitched++;
    if (last === undefined) {
      if (here < line) return undefined;
      last = item;
      top = here;
      // A tie with something earlier is no climb.
    } else if (here >= top) return undefined;
  }
  return last === undefined || pitched < 3 ? undefined : { last, top };
}

function climbs({ last, top }: Climb, date: number): Recurring {
  return {
    place: last.assignment.place,
    say: () => {
      const pitch = pitchSign(pitchFromMidi(top, prefersFlats(last.passes[0]?.placement)));
      const highest = `${spokenDate(date)}: the highest note of the session, ${pitch}`;
      return { message: `${highest}, comes in its last exercise, ${itemName(last)}.` };
    },
    date,
  };
}
