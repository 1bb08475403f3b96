import type { DayItem } from "../../days/day";
import type { Exercise } from "../../plan/exercise";
import type { SessionContent } from "../../plan/term";
import type { Rule } from "../rule";
import { sameExercises } from "../same-exercises";
import { quoted, rise } from "../words";

export const tempoJumps: Rule = {
  kind: "term",
  code: "tempo-jumps",
  severity: "warning",
  title: "a tempo that jumps",
  reason: "Ease grows in small steps.",
  mend: "Let the tempo grow over more weeks, or start the later weeks slower.",
  check: ({ days, plan }, report) => {
    const most = 1 + plan.settings.tempoJump;
    const last = new Map<Exercise | string, { week: number; item: DayItem }>();
    /** Each content as it last came, so that of a week only the first of its days is looked at. */
    const looked = new Map<SessionContent, { week: number; items: readonly DayItem[] }>();
    for (const day of days.days) {
      if (day.week === undefined) continue;
      for (const session of day.sessions) {
        // A short version may keep to an easier tempo; it says nothing of growth.
        if (session.short) continue;
        const { content, items } = session;
        const same = looked.get(content);
        if (same === undefined) looked.set(content, { week: day.week, items });
        else {
          if (same.week === day.week && sameExercises(same.items, items)) continue;
          same.week = day.week;
          same.items = items;
        }
        for (const item of items) {
          if (item.bpm === undefined || item.wholeSeconds === 0) continue;
          const { articulation } = item.assignment;
          // Another articulation is another difficulty, and has a tempo of its own.
          const key =
            articulation === undefined
              ? item.exercise
              : `${item.exercise.name}|${JSON.stringify(articulation)}`;
          const before = last.get(key);
          if (before === undefined) {
            last.set(key, { week: day.week, item });
            continue;
          }
          if (before.week >= day.week) continue;
          const speed = 1 / item.wholeSeconds;
          const speedBefore = 1 / before.item.wholeSeconds;
          if (speed > speedBefore * most + 1e-9) {
            report({
              place: item.assignment.place,
              message: `${quoted(item.exercise.name)} jumps to ${item.bpm} in week ${day.week}, ${rise(speed / speedBefore)} faster than in week ${before.week}; at most ${rise(most)} is the studio's rule.`,
              related: [{ place: before.item.assignment.place, message: "the tempo before" }],
              date: day.date,
            });
          }
          before.week = day.week;
          before.item = item;
        }
      }
    }
  },
};
