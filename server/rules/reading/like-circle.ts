import { troubleRule } from "../rule";
import { quoted } from "../words";

export const likeCircle = troubleRule(
  "like-circle",
  {
    severity: "error",
    title: "likes that run in a circle",
    reason: "Each would have to be known before the other.",
    mend: "Let one of them stand by itself.",
  },
  (trouble) => ({
    message: `${quoted(trouble.name)} is like itself in the end. Let one of the circle stand without “like”.`,
  }),
);
