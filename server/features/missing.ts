import type { Piece } from "../../grammar/piece";
import type { Place } from "../plan/place";
import type { Plan } from "../plan/plan";
import type { Trouble } from "../plan/trouble";
import type { MissingView } from "../protocol/requests";
import { READING_RULES } from "../rules/reading/all";
import { type Homes, locationOf, type Places } from "./lines-of";

const RULES = new Map(READING_RULES.map((rule) => [rule.code, rule]));

/** What is told of one piece; more is in the list of findings. */
const MOST_TOLD = 4;

/**
 * What could not be read of a piece, in the words of its findings. Nothing is checked for this: what reading noted is
 * put into words.
 */
export function missingIn(
  piece: Piece,
  plan: Pick<Plan, "troubles">,
  homes: Homes,
  places: Places,
): readonly MissingView[] {
  const told = new Map<string, MissingView>();
  const tell = (text: string, place: Place): void => {
    if (told.size < MOST_TOLD && !told.has(text))
      told.set(text, { text, place: locationOf(homes, place, places) });
  };
  for (const { message, span } of piece.problems) tell(message, { piece, span });
  for (const trouble of plan.troubles) {
    if (trouble.place.piece !== piece || isEcho(trouble, piece)) continue;
    const said = RULES.get(trouble.kind)?.say(trouble);
    if (said !== undefined) tell(said.message, trouble.place);
  }
  return [...told.values()];
}

/** Where something could not be read, what is noted of the notes around it only repeats that. */
function isEcho({ kind }: Trouble, { problems }: Piece): boolean {
  return problems.length > 0 && (kind === "bar-length" || kind === "music-slip" || kind === "line-missing");
}
