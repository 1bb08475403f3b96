import { comparePlans } from "../../../server/compare/compare-plans";
import type { Comparison } from "../../../server/compare/comparison";
import { planSideOf } from "../../../server/workspace/plan-side-of";
import { fixture } from "../../fixture";
import { checkTexts } from "../check-texts";

/** Two pictures of plans compared, each of one file or of several. */
export function compared(before: string, after: string): Comparison {
  const side = (picture: string) =>
    planSideOf(checkTexts(new Map(fixture(picture).map((file) => [file.path, file.text]))));
  return comparePlans({ before: side(before), after: side(after) });
}
