import { explainedExercise } from "../output/explained-exercise";
import { CAUTION } from "../output/totals-text";
import { findExercise, findPlayers, instrumentOf, placementOf } from "./asked-exercise";
import { readOptions } from "./options";
import { readPlans } from "./read-plans";
import { CLEAN, Misuse, type World } from "./world";

/** `leadpipe explain`: everything that is known of one exercise, with the sums behind it. */
export async function explain(args: readonly string[], world: World): Promise<number> {
  const { words, values } = readOptions("explain", args, { in: "value", player: "value" });
  const [name, ...paths] = words;
  if (name === undefined) {
    throw new Misuse('Name the exercise, in quotes: leadpipe explain "Slow fifths" samples');
  }
  const checked = await readPlans(paths, world, { findings: false });
  const { exercise, plan } = findExercise(checked, name);
  const players = findPlayers(checked, values.get("player"));
  const instrument = instrumentOf(players);
  const placement = placementOf(exercise, instrument, values.get("in"));
  world.out(
    `${explainedExercise({ exercise, settings: plan.settings, instrument, placement, players })}\n\n${CAUTION}\n`,
  );
  return CLEAN;
}
