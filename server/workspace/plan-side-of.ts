import type { PlanSide, TermSide } from "../compare/plan-side";
import { sharedUnrolling } from "../days/shared-unrolling";
import type { Exercise } from "../plan/exercise";
import { playersOf } from "../plan/plan";
import type { Player } from "../plan/player";
import type { Checked } from "./checked";

/** Checked files as one side of a comparison: the terms of the files asked for, and all that these use. */
export function planSideOf({ files }: Checked): PlanSide {
  const exercises = new Map<string, Exercise>();
  const players = new Map<string, Player>();
  const terms: TermSide[] = [];
  for (const { plan, asked } of files) {
    const { own } = plan;
    // Of two that bear one name the first holds, as in a plan.
    for (const each of own.exercises) if (!exercises.has(each.name)) exercises.set(each.name, each);
    for (const each of own.players) if (!players.has(each.name)) players.set(each.name, each);
    if (!asked) continue;
    for (const term of own.terms) {
      terms.push({ term, players: playersOf(plan, term), unrolled: sharedUnrolling(plan, term) });
    }
  }
  return { exercises, players, terms, findings: files.flatMap((file) => file.findings) };
}
