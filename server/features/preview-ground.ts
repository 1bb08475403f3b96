/** What the parts of the preview share. */
import type { Place } from "../plan/place";
import type { Player } from "../plan/player";
import type { PlaceView } from "../protocol/requests";
import type { Checked, CheckedFile } from "../workspace/check-sources";
import { locationOf, type Places } from "./lines-of";

/** Of what speaks of no weeks. */
export const NO_WEEKS = { weeks: [], week: undefined } as const;

/** What the preview shows needs of the rest. */
export interface Ground {
  readonly checked: Checked;
  readonly file: CheckedFile;
  readonly places: Places;
  /** Who was chosen; undefined for the first who plays it. */
  readonly chosen: string | undefined;
  /** Which week was chosen of several; undefined for the first. */
  readonly week: number | undefined;
}

/** Where a place leads; undefined where its text is in no file any more. */
export function linked({ checked, places }: Ground, place: Place): PlaceView | undefined {
  return locationOf(checked.homes, place, places);
}

/** Names of those who can be chosen, the first of whom is unless another was. */
export function choiceOf(players: readonly Player[], chosen: string | undefined): Player | undefined {
  return players.find((each) => each.name === chosen) ?? players[0];
}

/** The terms of those who play one, the chosen one's first. */
export function chosenFirst<T extends { readonly player: Player }>(
  terms: readonly T[],
  chosen: string | undefined,
): readonly T[] {
  const first = terms.filter((each) => each.player.name === chosen);
  return [...first, ...terms.filter((each) => each.player.name !== chosen)];
}
