import type { DayItem } from "../../server/days/day";
import { placementName } from "../../server/days/placement";

/** The keys an item is played in, `C, D♭`; major is not said. */
export function keySign(item: DayItem): string {
  return item.passes.map((pass) => placementName(pass.placement).replace(" major", "")).join(", ");
}
