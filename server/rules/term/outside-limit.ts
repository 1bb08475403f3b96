import type { Rule } from "../rule";
import { reportReach } from "./reach";

export const outsideLimit: Rule = {
  kind: "term",
  code: "outside-limit",
  severity: "error",
  title: "a note outside the player's limit",
  reason: "Beyond the limit a player forces, and learns to force.",
  mend: "Choose one of the keys named, stop the walk earlier, or widen the limit.",
  check: (view, report) => {
    const { figures, instrument, name } = view.days.player;
    const { limit } = figures;
    if (limit === undefined) return;
    const wider = { low: instrument.lowest, high: instrument.exceptional };
    const related = limit.place === undefined ? [] : [{ place: limit.place, message: "the limit" }];
    reportReach(view, limit.value, wider, `the limit of ${name}`, related, report);
  },
};
