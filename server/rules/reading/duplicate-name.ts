import type { NamedThing } from "../../plan/trouble";
import { troubleRule } from "../rule";
import { quoted } from "../words";

export const duplicateName = troubleRule(
  "duplicate-name",
  {
    severity: "error",
    title: "two things of one name",
    reason: "Nobody could tell which is meant; the first one holds.",
    mend: "Give one of them another name.",
  },
  (trouble) => ({
    message:
      trouble.what === "studio"
        ? "There is a second studio here. One place keeps the figures; the first one holds."
        : `There already is ${one(trouble.what)} ${quoted(trouble.name)}; the first one holds. Give this one another name.`,
    related: [{ place: trouble.first, message: "the first one" }],
  }),
);

function one(what: NamedThing): string {
  if (what === "player") return "a level or student";
  return /^[ae]/.test(what) ? `an ${what}` : `a ${what}`;
}
