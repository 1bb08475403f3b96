import { troubleRule } from "../rule";
import { quoted } from "../words";

export const noValves = troubleRule(
  "no-valves",
  {
    severity: "error",
    title: "valves asked of something in a key",
    reason: "Valve combinations are for exercises by partials.",
    mend: "Ask for keys.",
  },
  (trouble) => ({
    message: `${quoted(trouble.exercise)} is not written by partials. Ask for keys, for example: keys C up by half step to G`,
  }),
);
