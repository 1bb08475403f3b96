import type { CompletionList, Position } from "vscode-languageserver-types";
import type { Checked } from "../workspace/check-sources";
import { dateProposals, weekdayProposals, weekProposals } from "./completion-calendar";
import { clauseProposals } from "./completion-clauses";
import { type CompletionAbility, completionItems, type Proposal } from "./completion-item";
import { keyProposals, modeProposals, pitchProposals } from "./completion-keys";
import { musicProposals } from "./completion-music";
import {
  areaProposals,
  exerciseProposals,
  pathProposals,
  playerProposals,
  routineProposals,
  termProposals,
} from "./completion-names";
import { isWhole, type WritingPlace, writingPlace } from "./completion-place";
import { type Scene, sceneOf } from "./completion-scene";
import type { Slot } from "./completion-slot";
import { slotsAfter } from "./completion-slots";
import { beatProposals, minuteProposals, secondProposals, tempoProposals } from "./completion-tempi";
import {
  codeProposals,
  formRests,
  instrumentProposals,
  statementProposals,
  wordProposals,
} from "./completion-words";
import { fileOf, offsetOf } from "./lines-of";

export type { CompletionAbility } from "./completion-item";

/** The signs after which an editor asks by itself: a name, a new word, a list, a path. */
export const COMPLETION_TRIGGERS: readonly string[] = ['"', " ", "/", "-"];

/**
 * What can be written at a position, likeliest first. Asks only for the piece of the text around the cursor and
 * for the names of the plan, so that it costs the same in a long file as in a short one. `trigger` is the sign that
 * made the editor ask by itself: then only what must come next is offered, for nobody wants to be interrupted
 * behind a line that is complete.
 */
export function completionAt(
  checked: Checked,
  path: string,
  position: Position,
  can: CompletionAbility,
  trigger?: string,
): CompletionList {
  const file = fileOf(checked, path);
  const place = file === undefined ? undefined : writingPlace(file, offsetOf(file, position));
  if (file === undefined || place === undefined || place.block === undefined) return NOTHING;
  if (place.glued || (trigger !== undefined && isUncalledFor(place, trigger))) return NOTHING;
  const scene = sceneOf(checked, file, place);
  const slots = place.block === "music" ? [] : slotsAfter(place.block, place.said);
  const proposals =
    place.block === "music"
      ? musicProposals(scene)
      : slots.length === 0
        ? formRests(place.block, place.said)
        : slots.flatMap((slot) => proposalsFor(slot, scene));
  // Which days are offered depends on how much of a date is typed.
  return { isIncomplete: slots.includes("date"), ...completionItems(file, place, proposals, can) };
}

/** Whether a sign that was typed asks for nothing: a closing quote, or a space between notes or behind a whole line. */
function isUncalledFor(place: WritingPlace, trigger: string): boolean {
  if (trigger === '"') return !place.quoted;
  return trigger === " " && !place.quoted && (place.block === "music" || isWhole(place));
}

const NOTHING: CompletionList = { isIncomplete: false, items: [] };

function proposalsFor(slot: Slot, scene: Scene): readonly Proposal[] {
  if (typeof slot === "object") return wordProposals(slot.words);
  switch (slot) {
    case "statement":
      return startProposals(scene);
    case "exercise":
      return exerciseProposals(scene);
    case "area":
      return areaProposals(scene);
    case "player":
      return playerProposals(scene);
    case "routine":
      return routineProposals(scene);
    case "term":
      return termProposals(scene);
    case "path":
      return pathProposals(scene);
    case "key":
      return keyProposals(scene);
    case "mode":
      return modeProposals(scene);
    case "bpm":
      return tempoProposals(scene);
    case "beat":
      return beatProposals(scene);
    case "pitch":
      return pitchProposals(scene);
    case "date":
      return dateProposals(scene);
    case "weekday":
      return weekdayProposals(scene);
    case "week":
      return weekProposals(scene);
    case "instrument":
      return instrumentProposals();
    case "code":
      return codeProposals(scene);
    case "clause":
      return clauseProposals(scene);
    case "minutes":
      return minuteProposals(scene);
    case "seconds":
      return secondProposals();
  }
}

/** A session is mostly exercises, a week mostly days; every other block is mostly words. */
function startProposals(scene: Scene): readonly Proposal[] {
  const { block } = scene.place;
  if (block === undefined || block === "music") return [];
  const words = statementProposals(block, scene);
  if (block === "session") return [...exerciseProposals(scene), ...words];
  if (block === "weeks") return [...words, ...weekdayProposals(scene)];
  return words;
}
