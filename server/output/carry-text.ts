import type { LeftOut } from "../carry/carried-term";
import type { Paint } from "./paint";
import { safeText } from "./safe-text";

const WHY: { readonly [why in LeftOut["why"]]: string } = {
  closure: "an old closure: give the new ones with --closed, --light and --no-lesson",
  booking: "on a single day of the old calendar: --bookings moves such days by taught week",
  illness: "nobody's illness is carried over",
  "no such day": "the new calendar has no such day",
};

/** What a new term does not have of the old one, a line each, and why. */
export function leftOutText(name: string, leftOut: readonly LeftOut[], paint: Paint): string {
  if (leftOut.length === 0) return `“${safeText(name)}” has everything that the old term had.`;
  return [
    `Left out of “${safeText(name)}”:`,
    ...leftOut.map(({ line, why }) => `  ${safeText(line)}  ${paint.faint(`(${WHY[why]})`)}`),
  ].join("\n");
}
