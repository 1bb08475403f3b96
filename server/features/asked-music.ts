import { type Placement, travelOf } from "../days/placement";
import type { Instrument } from "../music/instrument";
import type { SheetAsk } from "../notation/write-out";
import type { Exercise, Tempo } from "../plan/exercise";
import { type Plan, playersOf } from "../plan/plan";
import type { Player } from "../plan/player";
import type { Assignment, Term } from "../plan/term";
import type { Checked, CheckedFile } from "../workspace/check-sources";
import { assignmentsIn } from "./assignments";
import { instrumentOf, levelsAround } from "./exercise-reach";
import { type ItemOnDay, meetingsOf } from "./hover-assignment";
import { nameAt } from "./names";
import { pieceAt } from "./tree-at";

/** The music that a place in a plan speaks of: an exercise, and how the line there asks for it. */
export interface AskedMusic {
  readonly plan: Plan;
  readonly exercise: Exercise;
  /** The line of a session; undefined where the exercise is spoken of by itself. */
  readonly assignment: Assignment | undefined;
  /** Those it is for, the first of whom reads it. */
  readonly players: readonly Player[];
}

/**
 * The music at an offset: of the line of a session it stands in, of the exercise whose name it stands on, or, where
 * `inside` is asked for, of the exercise it stands anywhere in. Undefined elsewhere.
 */
export function musicAt(
  checked: Checked,
  file: CheckedFile,
  offset: number,
  inside: boolean,
): AskedMusic | undefined {
  const at = pieceAt(file.tree, offset);
  if (at === undefined) return undefined;
  const { piece, start } = at;
  const { plan } = file;
  const assignment = assignmentsIn(plan, piece).find(
    ({ place: { span } }) => span.start <= offset - start && offset - start <= span.end,
  );
  const declared = inside && piece.declaration?.kind === "exercise" ? piece.declaration.name.text : undefined;
  const named = nameAt(file, offset)?.mention;
  const name =
    assignment?.exercise ?? (named?.kind === "exercise" && !inside ? named.text : (declared ?? undefined));
  const exercise = name === undefined ? undefined : plan.exercises.get(name);
  if (exercise === undefined) return undefined;
  const term = plan.own.terms.find((each) => each.place.piece === piece);
  return { plan, exercise, assignment, players: playersFor(checked, file, term) };
}

/** Those who play a term; for what stands in none, the levels around. */
export function playersFor(checked: Checked, file: CheckedFile, term: Term | undefined): readonly Player[] {
  const players = term === undefined ? [] : playersOf(file.plan, term);
  return players.length > 0 ? players : levelsAround(checked, file);
}

/** What is written out of the music: in the key and at the tempo that its line says for the first day it falls on. */
export function sheetAskOf({ plan, exercise, assignment, players }: AskedMusic): SheetAsk {
  const instrument = instrumentOf(players);
  const { settings } = plan;
  if (assignment === undefined) return { exercise, instrument, settings };
  const [first] = meetingsOf(plan, assignment);
  return assignedAsk(plan, assignment, first, exercise, instrument);
}

/** What is written out of a session's line as it is met on a day; where it is met on none, as the line begins. */
export function assignedAsk(
  { settings }: Plan,
  assignment: Assignment,
  met: ItemOnDay | undefined,
  named: Exercise,
  instrument: Instrument,
): SheetAsk {
  const exercise = met?.item.exercise ?? named;
  const { articulation, dynamic, rest } = assignment;
  const placements: readonly Placement[] =
    met === undefined
      ? travelOf(assignment, exercise, instrument).placements.slice(0, 1)
      : met.item.passes.map((pass) => pass.placement);
  return {
    exercise,
    instrument,
    settings,
    placements: placements.length === 0 ? undefined : placements,
    tempo: tempoOf(exercise, assignment, met?.item.bpm),
    articulation,
    dynamic,
    rest,
  };
}

function tempoOf(exercise: Exercise, { tempo }: Assignment, bpm: number | undefined): Tempo | undefined {
  const own = exercise.tempo;
  if (own === undefined) return undefined;
  const asked = bpm ?? tempo?.bpm.from;
  return asked === undefined ? own : { beat: tempo?.beat ?? own.beat, bpm: asked };
}
