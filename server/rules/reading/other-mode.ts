import { troubleRule } from "../rule";
import { quoted } from "../words";

export const otherMode = troubleRule(
  "other-mode",
  {
    severity: "error",
    title: "written notes asked for in another mode",
    reason: "Written notes move as they are; only degrees can change from major to minor.",
    mend: "Ask for a key of the same mode, or write the exercise by degrees.",
  },
  (trouble) => ({
    message: `${quoted(trouble.exercise)} is written out in ${trouble.home} and cannot become ${trouble.asked}. Ask for a key of the same mode, or write it by degrees.`,
  }),
);
