import type { PlayerTerm } from "../days/day";
import { unrollTerm } from "../days/unroll";
import { nearest } from "../plan/nearest";
import { playersOf } from "../plan/plan";
import { RATIO_METHODS, type RatioMethod } from "../totals/training-load";
import type { Checked } from "../workspace/check-sources";
import { Misuse } from "./world";

/** The terms that were asked for, as each player meets them. */
export function termsOf(
  { files }: Checked,
  wanted: { readonly player: string | undefined; readonly term: string | undefined },
): readonly PlayerTerm[] {
  const found: PlayerTerm[] = [];
  const players = new Set<string>();
  const terms = new Set<string>();
  for (const { plan, asked } of files) {
    if (!asked) continue;
    for (const term of plan.own.terms) {
      terms.add(term.name);
      for (const player of playersOf(plan, term)) {
        players.add(player.name);
        if (wanted.term !== undefined && wanted.term !== term.name) continue;
        if (wanted.player !== undefined && wanted.player !== player.name) continue;
        found.push(unrollTerm(plan, term, player));
      }
    }
  }
  mustBeThere("term", wanted.term, terms);
  mustBeThere("player", wanted.player, players);
  return found;
}

function mustBeThere(what: string, name: string | undefined, names: ReadonlySet<string>): void {
  if (name === undefined || names.has(name)) return;
  const near = nearest(name, names);
  throw new Misuse(
    `There is no ${what} “${name}” in these plans.${near === undefined ? "" : ` Did you mean “${near}”?`}`,
  );
}

/** The method of weighing loads that `--history` asks for. */
export function methodOf(word: string | undefined): RatioMethod | undefined {
  if (word === undefined) return undefined;
  const method = RATIO_METHODS.find((each) => each === word);
  if (method !== undefined) return method;
  throw new Misuse(`“--history” takes ${RATIO_METHODS.join(", ")}, not “${word}”.`);
}
