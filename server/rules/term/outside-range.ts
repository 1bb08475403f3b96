import type { Rule } from "../rule";
import { reportReach } from "./reach";

export const outsideRange: Rule = {
  kind: "term",
  code: "outside-range",
  severity: "note",
  title: "a note outside the comfortable range",
  reason: "Basics grow outwards from what is easy; now and then beyond is how a range grows.",
  mend: "Nothing, where it is meant; or one of the keys named.",
  check: (view, report) => {
    const { figures, instrument, name } = view.days.player;
    const { range, limit } = figures;
    if (range === undefined) return;
    const wider = limit?.value ?? { low: instrument.lowest, high: instrument.exceptional };
    const related = range.place === undefined ? [] : [{ place: range.place, message: "the range" }];
    reportReach(view, range.value, wider, `the comfortable range of ${name}`, related, report);
  },
};
