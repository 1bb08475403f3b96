import type { Rule } from "../rule";
import { quoted } from "../words";

const KINDS = ["single", "double", "triple"] as const;

/** Notes per second as musicians say it: sixteenths at so many quarters to the minute. */
export function asSixteenths(perSecond: number): string {
  return `sixteenths at ${Math.round(perSecond * 15)}`;
}

export const tongueSpeed: Rule = {
  kind: "term",
  code: "tongue-speed",
  severity: "warning",
  title: "a tempo beyond the tongue",
  reason: "A tongue driven past its speed stiffens.",
  mend: "A slower tempo, slurs, or double tonguing where the player has it.",
  check: ({ days, datesOf }, report) => {
    const { figures, name } = days.player;
    const limits = KINDS.flatMap((kind) => {
      const limit = figures[kind];
      return limit === undefined ? [] : [{ kind, limit }];
    });
    for (const item of days.items) {
      if (item.fastest === undefined || item.bpm === undefined) continue;
      // The fastest that may be chosen shortens the whole note in proportion.
      const wholeSeconds = (item.wholeSeconds * item.bpm) / item.fastest;
      for (const { kind, limit } of limits) {
        const perWhole = item.profile.tongue[kind];
        if (perWhole === 0) continue;
        const perSecond = perWhole / wholeSeconds;
        if (perSecond <= limit.value * 1.005) continue;
        const message = `${quoted(item.exercise.name)} at ${item.fastest} asks the tongue for ${perSecond.toFixed(1)} notes a second (${asSixteenths(perSecond)}); ${name} has ${limit.value.toFixed(1)} (${asSixteenths(limit.value)}), ${kind} tongue.`;
        const related = limit.place === undefined ? [] : [{ place: limit.place, message: "the tongue" }];
        for (const date of datesOf(item)) report({ place: item.assignment.place, message, related, date });
      }
    }
  },
};
