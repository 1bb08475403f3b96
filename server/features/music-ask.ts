import { homePlacement, type Placement } from "../days/placement";
import { type Fraction, fraction, fractionText } from "../music/rhythm";
import type { Sheet } from "../notation/sheet";
import { type SheetAsk, writtenOut } from "../notation/write-out";
import type { Exercise } from "../plan/exercise";
import type { Plan } from "../plan/plan";
import type { Player } from "../plan/player";
import type { Assignment } from "../plan/term";
import type { MusicAsk } from "../protocol/requests";
import type { Checked, CheckedFile } from "../workspace/check-sources";
import { musicAt, playersFor } from "./asked-music";
import { instrumentOf } from "./exercise-reach";
import { fileOf, offsetOf, type Places, positionOf } from "./lines-of";
import { placementFrom, placementId } from "./placement-id";
import { readableExercise } from "./readable-exercise";

/** Tempi that may be asked for, in beats to the minute, as in a plan. */
export const TEMPI = { least: 10, most: 400 };
/** Cells of a series that are shown at most: four octaves of half steps. */
const MOST_CELLS = 48;

/** An ask as a page may hand it back: names and numbers alone. */
export function musicAskOf(
  file: CheckedFile,
  ask: SheetAsk,
  assignment: Assignment | undefined,
  player: Player | undefined,
  { homes }: Pick<Checked, "homes">,
  places: Places,
): MusicAsk {
  const { exercise, placements, cells, tempo } = ask;
  const home = assignment === undefined ? undefined : homes.get(assignment.place.piece);
  return {
    uri: places.uriOf(file.path),
    exercise: exercise.name,
    line:
      assignment === undefined || home === undefined
        ? undefined
        : {
            uri: places.uriOf(home.file.path),
            position: positionOf(home.file, home.start + assignment.place.span.start),
          },
    where: (placements ?? []).map(placementId),
    cells,
    bpm: tempo?.bpm,
    beat: tempo === undefined ? undefined : fractionText(tempo.beat),
    player: player?.name,
  };
}

/** What is chosen beside an ask: another key, another tempo. */
export interface Chosen {
  readonly where?: string | undefined;
  readonly bpm?: number | undefined;
}

/** Music that was asked for, written out. */
export interface AskedSheet {
  readonly plan: Plan;
  readonly exercise: Exercise;
  /** Undefined where nobody is known to play it. */
  readonly player: Player | undefined;
  readonly ask: SheetAsk;
  /** Undefined for what has no notes. */
  readonly sheet: Sheet | undefined;
  /** The first key or combination. */
  readonly placement: Placement;
}

/** How addresses of the protocol become paths of this house. */
export interface Paths {
  pathOf(uri: string): string;
}

/** The music a page asks for; undefined where it is not there any more. */
export function askedSheet(
  checked: Checked,
  music: MusicAsk,
  chosen: Chosen,
  paths: Paths,
): AskedSheet | undefined {
  const file = fileOf(checked, paths.pathOf(music.uri));
  if (file === undefined) return undefined;
  const exercise = exerciseNamed(file, music.exercise);
  if (exercise === undefined) return undefined;
  const player = playerNamed(checked, file, music.player);
  const instrument = player?.instrument ?? instrumentOf([]);
  const ids = chosen.where === undefined ? music.where : [chosen.where];
  const placements = ids.flatMap((id) => placementFrom(id, exercise, instrument) ?? []);
  const assignment = lineOf(checked, music, paths);
  const beat = beatFrom(music.beat) ?? exercise.tempo?.beat;
  const bpm = bounded(chosen.bpm ?? music.bpm ?? exercise.tempo?.bpm);
  const ask: SheetAsk = {
    exercise,
    instrument,
    settings: file.plan.settings,
    placements: placements.length === 0 ? undefined : placements,
    cells: music.cells === undefined ? undefined : Math.max(1, Math.min(MOST_CELLS, Math.round(music.cells))),
    tempo: beat === undefined || bpm === undefined ? undefined : { beat, bpm },
    articulation: assignment?.articulation,
    dynamic: assignment?.dynamic,
    rest: assignment?.rest,
  };
  const written = writtenOut(ask);
  return {
    plan: file.plan,
    exercise,
    player,
    ask,
    sheet: written.kind === "sheet" ? written.sheet : undefined,
    placement: placements[0] ?? homePlacement(exercise, instrument),
  };
}

/** The player of a name, in the words of a file or, for a book, of those who use it; the first of them without one. */
function playerNamed(checked: Checked, file: CheckedFile, name: string | undefined): Player | undefined {
  const own = name === undefined ? undefined : file.plan.players.get(name);
  if (own !== undefined) return own;
  const around = playersFor(checked, file, undefined);
  return around.find((each) => each.name === name) ?? around[0];
}

/** The exercise of a name in the words of a file; one of its own that is not whole, as far as it can be read. */
function exerciseNamed(file: CheckedFile, name: string): Exercise | undefined {
  const found = file.plan.exercises.get(name);
  if (found !== undefined) return found;
  for (const piece of file.tree.pieces) {
    const { declaration } = piece;
    if (declaration?.kind === "exercise" && declaration.name.text === name) {
      return readableExercise(file.plan, piece);
    }
  }
  return undefined;
}

function lineOf(checked: Checked, { line, exercise }: MusicAsk, paths: Paths): Assignment | undefined {
  if (line === undefined) return undefined;
  const file = fileOf(checked, paths.pathOf(line.uri));
  const music = file === undefined ? undefined : musicAt(checked, file, offsetOf(file, line.position), false);
  // The text may have moved on since; then the line is another's, or a change puts an exercise in its place.
  return music?.assignment !== undefined && music.exercise.name === exercise ? music.assignment : undefined;
}

function beatFrom(text: string | undefined): Fraction | undefined {
  const match = /^(\d{1,2})\/(\d{1,2})$/.exec(text ?? "");
  const [num, den] = [Number(match?.[1]), Number(match?.[2])];
  return match === null || num === 0 || den === 0 ? undefined : fraction(num, den);
}

function bounded(bpm: number | undefined): number | undefined {
  if (bpm === undefined || !Number.isFinite(bpm)) return undefined;
  return Math.max(TEMPI.least, Math.min(TEMPI.most, bpm));
}
