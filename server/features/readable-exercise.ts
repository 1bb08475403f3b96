import { Memory } from "../../grammar/memory";
import type { Piece } from "../../grammar/piece";
import { readPiece } from "../../grammar/reader";
import { completeExercise, type Exercise, type ExerciseDraft, readExercise } from "../plan/exercise";
import type { Plan } from "../plan/plan";

/** What an exercise is taken to say where it does not: only to be shown, never to be counted. */
const STANDING_IN = `exercise "" {
  in "…"
  key C major
  meter free
  tempo 1/4 = 60
}
`;

/** One slip may hide the next; after so many the music waits for its writer. */
const MOST_SLIPS = 6;

let standingIn: ExerciseDraft | undefined;

const known = new Memory<Piece, Exercise | null>();
const written = new Memory<Piece, Piece>();

/**
 * The exercise of a piece, as the plan has it or, where it is not whole yet, as far as it can be read: without what
 * means nothing, without an area, in C, in free bars, at an easy tempo. Undefined where there is nothing in it yet to be shown.
 */
export function readableExercise(plan: Plan, piece: Piece): Exercise | undefined {
  const { declaration } = piece;
  if (declaration?.kind !== "exercise") return undefined;
  const whole = plan.exercises.get(declaration.name.text);
  if (whole?.place.piece === piece) return whole;
  const before = known.get(piece);
  if (before !== undefined) return before ?? undefined;
  const read = readWithoutSlips(piece);
  known.set(piece, read ?? null);
  return read;
}

/** The piece as it is written, of one that was read without its slips: places in it are the same. */
export function writtenPiece(piece: Piece): Piece {
  return written.get(piece) ?? piece;
}

function readWithoutSlips(piece: Piece): Exercise | undefined {
  standingIn ??= draftOf(readPiece(STANDING_IN));
  let at = piece;
  for (let slips = 0; slips <= MOST_SLIPS; slips++) {
    const draft = draftOf(at);
    const exercise = draft === undefined ? undefined : completeExercise(draft, standingIn).exercise;
    if (exercise !== undefined) return exercise;
    const text = withoutSlips(at);
    if (text === at.text) return undefined;
    at = readPiece(text);
    written.set(at, piece);
  }
  return undefined;
}

/** The text with spaces for what could not be read, so that everything else stays where it is. */
function withoutSlips({ text, problems }: Piece): string {
  let blank = text;
  for (const { span } of problems) {
    blank =
      blank.slice(0, span.start) +
      blank.slice(span.start, span.end).replace(/[^\r\n]/g, " ") +
      blank.slice(span.end);
  }
  return blank;
}

function draftOf(piece: Piece): ExerciseDraft | undefined {
  const { declaration } = piece;
  return declaration?.kind === "exercise" ? readExercise(piece, declaration) : undefined;
}
