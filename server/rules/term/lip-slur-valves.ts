import { pitchFromMidi, pitchSign } from "../../music/pitch";
import { commonCombination } from "../../music/valves";
import { placed, prefersFlats } from "../contributions";
import type { Rule } from "../rule";
import { list, quoted } from "../words";

export const lipSlurValves: Rule = {
  kind: "term",
  code: "lip-slur-valves",
  severity: "error",
  title: "a lip slur that no valve combination can hold",
  reason: "A lip slur moves between partials of one tube; a valve in between makes it another exercise.",
  mend: "Change the notes, take the word `lip` away, or write the exercise by partials.",
  check: ({ days, datesOf }, report) => {
    for (const item of days.items) {
      if (item.profile.lipSlurs.length === 0) continue;
      if (item.exercise.content.kind === "notes" && item.exercise.content.by === "partials") continue;
      for (const slur of item.profile.lipSlurs) {
        for (const { placement } of item.passes) {
          const midis = slur.midis.map((midi) => midi + placement.semitones);
          if (commonCombination(midis, days.player.instrument).length > 0) continue;
          const flats = prefersFlats(placement);
          const notes = list(
            midis.map((midi) => pitchSign(pitchFromMidi(midi, flats))),
            8,
          );
          const message = `${quoted(item.exercise.name)} ${placed(placement)}: no valve combination holds ${notes} together, so this is no lip slur.`;
          const related = [{ place: slur.place, message: "the lip slur" }];
          for (const date of datesOf(item)) report({ place: item.assignment.place, message, related, date });
        }
      }
    }
  },
};
