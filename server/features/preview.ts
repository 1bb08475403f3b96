import type { PreviewParams, PreviewView } from "../protocol/requests";
import type { Checked } from "../workspace/check-sources";
import { musicAt } from "./asked-music";
import { fileOf, offsetOf, type Places } from "./lines-of";
import { exerciseView, unreadView } from "./preview-exercise";
import type { Ground } from "./preview-ground";
import { routineView } from "./preview-routine";
import { termPartView } from "./preview-term";
import { termSubject } from "./term-subject";
import { chainAt, pieceAt } from "./tree-at";

/**
 * What the preview shows of a place: the exercise it stands in or that its line asks for, the session, the day, the
 * week or the term. Undefined where it speaks of nothing of the kind.
 */
export function previewOf(
  checked: Checked,
  path: string,
  { position, player: chosen, week }: Pick<PreviewParams, "position" | "player" | "week">,
  places: Places,
): PreviewView | undefined {
  const file = fileOf(checked, path);
  if (file === undefined) return undefined;
  const offset = offsetOf(file, position);
  const at = pieceAt(file.tree, offset);
  if (at === undefined) return undefined;
  const ground: Ground = { checked, file, places, chosen, week };
  const music = musicAt(checked, file, offset, true);
  if (music !== undefined) return exerciseView(ground, music);
  const { piece, start } = at;
  const { plan } = file;
  const unread = piece.declaration;
  if (unread?.kind === "exercise")
    return unreadView(ground, unread.name.text, { piece, span: unread.name.span });
  const term = plan.own.terms.find((each) => each.place.piece === piece);
  if (term !== undefined)
    return termPartView(ground, term, termSubject(term, chainAt(piece, offset - start)));
  const routine = plan.own.routines.find((each) => each.place.piece === piece);
  return routine === undefined ? undefined : routineView(ground, routine);
}
