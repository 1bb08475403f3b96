import type { Day } from "../../days/day";
import { spokenDate } from "../../plan/date";
import type { Rule } from "../rule";
import { minutes, quoted } from "../words";

/** Days before a concert that should be lighter, and how light: common practice, no source. */
const RUN_UP = 2;
const LIGHTER = 0.9;

export const noConcertEasing: Rule = {
  kind: "term",
  code: "no-concert-easing",
  severity: "warning",
  title: "no easing before a concert",
  reason: "Fresh lips play concerts; the work of the last days cannot help any more.",
  mend: "Add a line like: ease 3 days before concerts to half",
  check: ({ days }, report) => {
    // First years play too little for easing to matter.
    if (days.player.figures.stage?.value === "first year") return;
    const usual = days.days.filter(
      (day) => day.state === "practice" && day.share === 1 && day.sessions.length > 0,
    );
    if (usual.length === 0) return;
    // Practice alone: a dress rehearsal the evening before is nobody's choice.
    const practised = (day: Day): number => day.sessions.reduce((sum, session) => sum + session.playing, 0);
    const mean = usual.reduce((sum, day) => sum + practised(day), 0) / usual.length;
    for (const day of days.days) {
      const { concert } = day;
      if (concert === undefined) continue;
      const before = days.days.filter((each) => each.date < day.date && each.date >= day.date - RUN_UP);
      if (before.length === 0) continue;
      const heaviest = Math.max(...before.map(practised));
      if (heaviest <= mean * LIGHTER) continue;
      report({
        place: concert.place,
        message: `${spokenDate(day.date)}: in the ${RUN_UP} days before ${quoted(concert.name)}, ${days.player.name} practises up to ${minutes(heaviest)} of playing a day; a usual day has ${minutes(mean)}. Ease the last days.`,
        date: day.date,
      });
    }
  },
};
