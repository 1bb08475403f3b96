import type { Rule } from "../rule";
import { reportReach } from "./reach";

export const outsideInstrument: Rule = {
  kind: "term",
  code: "outside-instrument",
  severity: "error",
  title: "a note the instrument does not have",
  reason: "It cannot be played.",
  mend: "Choose one of the keys named.",
  check: (view, report) => {
    const { instrument } = view.days.player;
    const range = { low: instrument.lowest, high: instrument.exceptional };
    reportReach(view, range, undefined, `what the ${instrument.name} plays`, [], report);
  },
};
