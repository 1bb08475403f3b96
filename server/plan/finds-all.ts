import { Memory } from "../../grammar/memory";
import type { Plan } from "./plan";
import type { Term } from "./term";
import { namesIn } from "./term-names";

/** The tables in which all that a term names was found. */
const allFoundIn = new Memory<Term, readonly unknown[]>();

/** Whether all that a term names is there, so that nothing need be said of its names. */
export function findsAll(
  term: Term,
  { exercises, routines, players }: Pick<Plan, "exercises" | "routines" | "players">,
): boolean {
  const tables = [exercises, routines, players];
  if (allFoundIn.get(term)?.every((table, i) => table === tables[i]) === true) return true;
  const names = namesIn(term);
  const all =
    hasAll(exercises, names.exercises) && hasAll(routines, names.routines) && hasAll(players, names.players);
  if (all) allFoundIn.set(term, tables);
  return all;
}

function hasAll(table: ReadonlyMap<string, unknown>, names: ReadonlySet<string>): boolean {
  for (const name of names) if (!table.has(name)) return false;
  return true;
}
