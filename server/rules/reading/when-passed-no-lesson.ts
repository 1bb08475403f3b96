import { troubleRule } from "../rule";
import { quoted } from "../words";

export const whenPassedNoLesson = troubleRule(
  "when-passed-no-lesson",
  {
    severity: "warning",
    title: "keys that wait for a lesson that never comes",
    reason: "The key never moves on.",
    mend: "Add `lesson every …` to the term, or write `onward`.",
  },
  (trouble) => ({
    message: `${quoted(trouble.exercise)} moves on when a lesson passes it, but the term has no lesson. Add a line like: lesson every Tue`,
  }),
);
