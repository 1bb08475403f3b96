import { spokenDate } from "../../plan/date";
import { troubleRule } from "../rule";
import { quoted } from "../words";

export const walkRestarts = troubleRule(
  "walk-restarts",
  {
    severity: "note",
    title: "a walk that starts over",
    reason: "All its keys have been played before the block ends.",
    mend: "Nothing, or a longer walk, or `next round up by …`.",
  },
  (trouble) => ({
    message: `${quoted(trouble.exercise)} has been through all its ${trouble.keys} keys and starts over on ${spokenDate(trouble.date)}.`,
    date: trouble.date,
  }),
);
