import type { Comparison, Either } from "../compare/comparison";
import type { PlanSide } from "../compare/plan-side";
import { homePlacement } from "../days/placement";
import { findInstrument, type Instrument } from "../music/instrument";
import { withPrefix } from "../notation/clean-svg";
import { type EngravingTask, engravingTask } from "../notation/engrave";
import { writtenOut } from "../notation/write-out";
import type { Exercise } from "../plan/exercise";
import type { Settings } from "../plan/settings";

/** So many exercises are shown as notation at most: a book written anew is read in the book. */
const MOST = 24;
/** Pixels across one of two pictures side by side. */
const WIDTH = 560;

/**
 * Exercises with other bars than before, as they looked and as they look, by their names of today. Where `engrave`
 * gives nothing there is no picture.
 */
export async function rewrittenPictures(
  { book }: Comparison,
  sides: { readonly before: PlanSide; readonly after: PlanSide },
  settings: Settings,
  engrave: (task: EngravingTask) => Promise<string | undefined>,
): Promise<ReadonlyMap<string, Either<string>>> {
  const pictures = new Map<string, Either<string>>();
  const rewritten = book.rewritten.filter(({ bars }) => bars.length > 0).slice(0, MOST);
  for (const [i, { exercise }] of rewritten.entries()) {
    const picture = async (side: "before" | "after"): Promise<string | undefined> => {
      const found = sides[side].exercises.get(exercise[side]);
      const task = found === undefined ? undefined : taskFor(found, settings, side);
      if (task === undefined) return undefined;
      const svg = await engrave(task);
      // Two pictures on one page must not share the names of their parts.
      return svg === undefined ? undefined : withPrefix(svg, `x${i}${side[0]}-`);
    };
    pictures.set(exercise.after, { before: await picture("before"), after: await picture("after") });
  }
  return pictures;
}

function taskFor(exercise: Exercise, settings: Settings, side: string): EngravingTask | undefined {
  const instrument: Instrument | undefined = findInstrument("trumpet");
  if (instrument === undefined) return undefined;
  const written = writtenOut({
    exercise,
    instrument,
    settings,
    placements: [homePlacement(exercise, instrument)],
    tempo: undefined,
  });
  if (written.kind !== "sheet") return undefined;
  return engravingTask(written.sheet, `${exercise.name}, ${side}`, { width: WIDTH, fingerings: false });
}
