import type { TextEdit } from "vscode-languageserver-types";
import type { MusicField } from "../../grammar/tree";
import type { Content } from "../plan/exercise";
import type { Plan } from "../plan/plan";
import type { Score } from "../plan/score";
import type { Checked, CheckedFile } from "../workspace/check-sources";
import { bringsNothingNew } from "./recheck";
import { pieceAt } from "./tree-at";

/** The music that an exercise writes itself, as it stands in its file. */
export interface OwnMusic {
  readonly name: string;
  readonly field: MusicField;
  readonly content: Extract<Content, { kind: "notes" }>;
  /** Where the exercise's piece begins in the text. */
  readonly start: number;
}

/** The music of the exercise at an offset; undefined where it borrows its notes or could not be read. */
export function ownMusicAt(file: CheckedFile, offset: number): OwnMusic | undefined {
  const at = pieceAt(file.tree, offset);
  const declaration = at?.piece.declaration;
  if (at === undefined || declaration?.kind !== "exercise" || at.piece.problems.length > 0) return undefined;
  const name = declaration.name.text;
  const exercise = file.plan.exercises.get(name);
  if (exercise === undefined || exercise.place.piece !== at.piece) return undefined;
  const field = declaration.block?.items.find((item): item is MusicField => item.kind === "music");
  const { content } = exercise;
  if (field === undefined || content.kind !== "notes" || content.piece !== at.piece) return undefined;
  return { name, field, content, start: at.start };
}

/**
 * Whether edits leave every note as it is, of the exercise and of all that borrow its music, and bring no finding in
 * any file that can ask for one of them.
 */
export function keepsItsNotes(
  checked: Checked,
  file: CheckedFile,
  { name, content: { piece } }: OwnMusic,
  edits: readonly TextEdit[],
): boolean {
  const means = (before: Plan, after: Plan): boolean =>
    [...before.exercises.values()].every((exercise) => {
      const { content } = exercise;
      if (content.kind !== "notes" || content.piece !== piece) return true;
      const fresh = after.exercises.get(exercise.name)?.content;
      return fresh?.kind === "notes" && sameScore(content.score, fresh.score);
    });
  return bringsNothingNew(checked, file, edits, { concerns: (plan) => plan.exercises.has(name), means });
}

/** Whether two scores are the same music, however their notes are written and wherever they stand. */
function sameScore(a: Score, b: Score): boolean {
  return JSON.stringify(a, meaning) === JSON.stringify(b, meaning);
}

function meaning(key: string, value: unknown): unknown {
  return key === "span" || key === "degree" ? undefined : value;
}
