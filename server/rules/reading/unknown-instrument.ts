import { troubleRule } from "../rule";

export const unknownInstrument = troubleRule(
  "unknown-instrument",
  {
    severity: "error",
    title: "an instrument not known here",
    reason: "Range and fingerings depend on it.",
    mend: "Choose one of the instruments named.",
  },
  (trouble) => ({
    message: `“${trouble.text}” is not an instrument known here. Known are: ${trouble.known.join(", ")}.`,
  }),
);
