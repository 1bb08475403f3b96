import { troubleRule } from "../rule";
import { quoted } from "../words";

export const noKey = troubleRule(
  "no-key",
  {
    severity: "error",
    title: "a key asked of something without one",
    reason: "There is nothing to transpose.",
    mend: "Take the key away, or write valves for partials.",
  },
  (trouble) => ({
    message:
      trouble.why === "partials"
        ? `${quoted(trouble.exercise)} goes by partials and has no key. Ask for valves, for example: valves open to 123`
        : `${quoted(trouble.exercise)} is ${trouble.why === "printed" ? "printed music" : "work without notes"} and cannot be put in another key. Take the key away.`,
  }),
);
