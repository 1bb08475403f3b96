import type { Rule } from "../rule";
import { quoted } from "../words";

export const unusedRoutine: Rule = {
  kind: "plan",
  code: "unused-routine",
  severity: "note",
  title: "a routine that no session calls up",
  reason: "It may have been forgotten.",
  mend: "Call it up, or take it away.",
  check: (plan, around, report) => {
    if (!around.hasTerm) return;
    for (const routine of plan.own.routines) {
      if (!around.mentioned.has(routine.name)) {
        report({ place: routine.place, message: `No session calls up ${quoted(routine.name)}.` });
      }
    }
  },
};
