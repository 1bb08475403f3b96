import { troubleRule } from "../rule";

export const lineMissing = troubleRule(
  "line-missing",
  {
    severity: "error",
    title: "a line that is needed is missing",
    reason: "Without it nothing can be counted.",
    mend: "Add the line that the message shows.",
  },
  (trouble) => ({
    message: `For ${trouble.what}, please say ${trouble.needs}, for example: ${trouble.example}`,
  }),
);
