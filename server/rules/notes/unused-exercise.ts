import type { Rule } from "../rule";
import { quoted } from "../words";

export const unusedExercise: Rule = {
  kind: "plan",
  code: "unused-exercise",
  severity: "note",
  title: "an exercise that no term asks for",
  reason: "It may have been forgotten.",
  mend: 'Ask for it, or let it stand: let unused-exercise stand because "kept for spring"',
  check: (plan, around, report) => {
    if (!around.hasTerm) return;
    for (const exercise of plan.own.exercises) {
      if (!around.mentioned.has(exercise.name)) {
        report({ place: exercise.place, message: `No term asks for ${quoted(exercise.name)}.` });
      }
    }
  },
};
