import type { Piece } from "../../grammar/piece";
import { readPiece } from "../../grammar/reader";
import { completeExercise, type Exercise, type ExerciseDraft, readExercise } from "../plan/exercise";
import type { Plan } from "../plan/plan";

/** What an exercise is taken to say where it does not: only to be shown, never to be counted. */
const STANDING_IN = `exercise "" {
  in "…"
  key C major
  tempo 1/4 = 60
}
`;

let standingIn: ExerciseDraft | undefined;

const known = new WeakMap<Piece, Exercise | null>();

/**
 * The exercise of a piece, as the plan has it or, where it is not whole yet, as far as it can be read: without an
 * area, in C, at an easy tempo. Undefined where there is nothing in it yet to be shown.
 */
export function readableExercise(plan: Plan, piece: Piece): Exercise | undefined {
  const { declaration } = piece;
  if (declaration?.kind !== "exercise") return undefined;
  const whole = plan.exercises.get(declaration.name.text);
  if (whole?.place.piece === piece) return whole;
  const before = known.get(piece);
  if (before !== undefined) return before ?? undefined;
  standingIn ??= draftOf(readPiece(STANDING_IN));
  const draft = draftOf(piece);
  const read = draft === undefined ? undefined : completeExercise(draft, standingIn).exercise;
  known.set(piece, read ?? null);
  return read;
}

function draftOf(piece: Piece): ExerciseDraft | undefined {
  const { declaration } = piece;
  return declaration?.kind === "exercise" ? readExercise(piece, declaration) : undefined;
}
