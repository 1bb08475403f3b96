import type { NamedThing } from "../../plan/trouble";
import { troubleRule } from "../rule";
import { quoted } from "../words";

export const unknownName = troubleRule(
  "unknown-name",
  {
    severity: "error",
    title: "a name nobody bears",
    reason: "What is asked for must be kept somewhere.",
    mend: 'Correct the spelling, or write `use "book.practice"` at the top to bring it in.',
  },
  (trouble) => ({
    message:
      trouble.nearest === undefined
        ? `There is no ${word(trouble.what)} ${quoted(trouble.name)} here. Declare it, or bring its file in with a line like use "book.practice".`
        : `There is no ${word(trouble.what)} ${quoted(trouble.name)}. Did you mean ${quoted(trouble.nearest)}?`,
    mend:
      trouble.nearest === undefined
        ? undefined
        : { title: `Change to ${quoted(trouble.nearest)}`, text: `"${trouble.nearest}"` },
  }),
);

function word(what: NamedThing): string {
  return what === "player" ? "level or student" : what;
}
