import type { DayItem } from "../days/day";
import { type Placement, travelOf } from "../days/placement";
import type { Instrument } from "../music/instrument";
import type { SheetAsk } from "../notation/write-out";
import type { Exercise, Tempo } from "../plan/exercise";
import { type Plan, playersOf } from "../plan/plan";
import type { Player } from "../plan/player";
import type { Assignment, Term } from "../plan/term";
import type { Checked, CheckedFile } from "../workspace/check-sources";
import { assignmentsIn } from "./assignments";
import { everyoneAround, instrumentOf } from "./exercise-reach";
import { meetingsOf } from "./hover-assignment";
import { nameAt } from "./names";
import { readableExercise } from "./readable-exercise";
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
 * `inside` is asked for, of the exercise it stands anywhere in, as far as that can be read. Undefined elsewhere.
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
  const term = plan.own.terms.find((each) => each.place.piece === piece);
  const assignment = assignmentsIn(plan, piece).find(
    ({ place: { span } }) => span.start <= offset - start && offset - start <= span.end,
  );
  const exercise = inside ? readableExercise(plan, piece) : undefined;
  if (exercise !== undefined) {
    return { plan, exercise, assignment: undefined, players: playersFor(checked, file, term) };
  }
  const named = nameAt(file, offset)?.mention;
  const name = assignment?.exercise ?? (named?.kind === "exercise" ? named.text : undefined);
  const found = name === undefined ? undefined : plan.exercises.get(name);
  if (found === undefined) return undefined;
  return { plan, exercise: found, assignment, players: playersFor(checked, file, term) };
}

/** Those who play a term; for what stands in none, the levels around, and after them their students. */
export function playersFor(checked: Checked, file: CheckedFile, term: Term | undefined): readonly Player[] {
  const players = term === undefined ? [] : playersOf(file.plan, term);
  return players.length > 0 ? players : everyoneAround(checked, file);
}

/** What is written out of the music: in the key and at the tempo that its line says for the first day it falls on. */
export function sheetAskOf({ plan, exercise, assignment, players }: AskedMusic): SheetAsk {
  const instrument = instrumentOf(players);
  if (assignment === undefined) return { exercise, instrument, settings: plan.settings };
  return assignedAsk(plan, assignment, meetingsOf(plan, assignment)[0]?.item, exercise, instrument);
}

/** What is written out of a session's line as it is met on a day; where it is met on none, as the line begins. */
export function assignedAsk(
  { settings }: Pick<Plan, "settings">,
  assignment: Assignment,
  met: Pick<DayItem, "exercise" | "passes" | "bpm"> | undefined,
  named: Exercise,
  instrument: Instrument,
): SheetAsk {
  const exercise = met?.exercise ?? named;
  const { articulation, dynamic, rest } = assignment;
  const passes: readonly Placement[] =
    met === undefined
      ? travelOf(assignment, exercise, instrument).placements.slice(0, 1)
      : met.passes.map((pass) => pass.placement);
  // The cells of a series are written out from the first of them.
  const series = exercise.series !== undefined && met !== undefined;
  const placements = series ? passes.slice(0, 1) : passes;
  return {
    exercise,
    instrument,
    settings,
    placements: placements.length === 0 ? undefined : placements,
    cells: series ? passes.length : undefined,
    tempo: tempoOf(exercise, assignment, met?.bpm),
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
