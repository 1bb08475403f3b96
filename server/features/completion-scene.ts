import type { IToken } from "chevrotain";
import { nameText } from "../../grammar/leaves";
import { QuotedName } from "../../grammar/tokens";
import type { Exercise } from "../plan/exercise";
import { type Plan, playersOf } from "../plan/plan";
import type { Player } from "../plan/player";
import type { Term } from "../plan/term";
import type { Checked, CheckedFile } from "../workspace/check-sources";
import type { WritingPlace } from "./completion-place";
import { levelsAround } from "./exercise-reach";

/** What is known around the cursor while something is being written. */
export interface Scene {
  readonly checked: Checked;
  readonly file: CheckedFile;
  readonly plan: Plan;
  readonly place: WritingPlace;
  /** The term the cursor stands in, as it was last read. */
  readonly term: Term | undefined;
  /** Who plays what is written here: the term's players, or the levels around. */
  readonly players: readonly Player[];
  /** The exercise the line is about. */
  readonly exercise: Exercise | undefined;
}

/** What is known around a place, from the plan as it was last read. */
export function sceneOf(checked: Checked, file: CheckedFile, place: WritingPlace): Scene {
  const { plan } = file;
  const piece = place.piece?.piece;
  const term = plan.own.terms.find((each) => each.place.piece === piece);
  const declared = piece?.declaration?.kind === "exercise" ? piece.declaration.name.text : undefined;
  const named = place.said.filter(isName).map(({ image }) => nameText(image));
  // A line of the record names the player first.
  const name = declared ?? named.findLast((each) => plan.exercises.has(each));
  return {
    checked,
    file,
    plan,
    place,
    term,
    players: term === undefined ? levelsAround(checked, file) : playersOf(plan, term),
    exercise: name === undefined ? undefined : plan.exercises.get(name),
  };
}

function isName({ tokenType }: IToken): boolean {
  return tokenType === QuotedName || tokenType.CATEGORIES?.includes(QuotedName) === true;
}
