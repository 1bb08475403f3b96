import { troubleRule } from "../rule";
import { quoted } from "../words";

export const seriesEndless = troubleRule(
  "series-endless",
  {
    severity: "error",
    title: "a series without an end",
    reason: "Without a number of cells, only minutes can end it.",
    mend: "Give it minutes, or write how many cells: series 7 cells down by half step.",
  },
  (trouble) => ({
    message: `${quoted(trouble.exercise)} is a series without a last cell. Give it minutes here (for 3 min), or a number of cells in the exercise.`,
  }),
);
