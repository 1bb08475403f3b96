import { troubleRule } from "../rule";

export const unknownCode = troubleRule(
  "unknown-code",
  {
    severity: "error",
    title: "a finding of that code does not exist",
    reason: "The line would have no effect.",
    mend: "Correct the code; `leadpipe help findings` lists them.",
  },
  (trouble) => ({
    message: `There is no finding “${trouble.text}”.${trouble.nearest === undefined ? " The list is in: leadpipe help findings" : ` Did you mean ${trouble.nearest}?`}`,
    mend:
      trouble.nearest === undefined
        ? undefined
        : { title: `Change to ${trouble.nearest}`, text: trouble.nearest },
  }),
);
