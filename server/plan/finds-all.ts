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
    [...names.exercises].every((name) => exercises.has(name)) &&
    [...names.routines].every((name) => routines.has(name)) &&
    [...names.players].every((name) => players.has(name));
  if (all) allFoundIn.set(term, tables);
  return all;
}
