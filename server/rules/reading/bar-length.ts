import { troubleRule } from "../rule";

export const barLength = troubleRule(
  "bar-length",
  {
    severity: "error",
    title: "a bar that does not fill its meter",
    reason: "A bar too long or too short is nearly always a slip.",
    mend: "Correct a note value, move the bar line, or write `free` or `meter free`.",
  },
  (trouble) => ({
    message: `Bar ${trouble.bar} holds ${trouble.have} where ${trouble.want} ${trouble.more ? "is all there is room for: something is too long, or a bar line is missing" : "are needed: something is missing, or too short"}.${trouble.afterPickup ? " With the pick-up it makes one whole bar." : ""}`,
  }),
);
