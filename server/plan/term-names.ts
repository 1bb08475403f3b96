import { Memory } from "../../grammar/memory";
import type { Routine, SessionContent, Term } from "./term";

/** The names a term asks for, each once; gathered once for each term. */
export interface TermNames {
  /** Exercises that may be played: of the assignments, and those that replace others. */
  readonly played: ReadonlySet<string>;
  /** All exercises that are named, also those that are replaced or left out. */
  readonly exercises: ReadonlySet<string>;
  readonly routines: ReadonlySet<string>;
  readonly players: ReadonlySet<string>;
}

const known = new Memory<Term, TermNames>();

export function namesIn(term: Term): TermNames {
  const before = known.get(term);
  if (before !== undefined) return before;
  const played = new Set<string>();
  // Of a term that changes nothing for anybody, these are all there are.
  const changed = term.changes.some(({ changes }) => changes.some((change) => "exercise" in change));
  const exercises = changed ? new Set<string>() : played;
  const routines = new Set<string>();
  const players = new Set(term.players.map(({ text }) => text));
  for (const weeks of term.weeks) {
    for (const { routine, content } of weeks.sessions) {
      if (routine !== undefined) routines.add(routine.text);
      addNames(content, played);
    }
  }
  for (const { player, changes } of term.changes) {
    players.add(player.text);
    for (const change of changes) {
      if (change.kind === "replace") played.add(change.by);
      if (change.kind === "replace" || change.kind === "leave out") exercises.add(change.exercise);
    }
  }
  if (changed) for (const name of played) exercises.add(name);
  const names = { played, exercises, routines, players };
  known.set(term, names);
  return names;
}

const knownRoutines = new Memory<Routine, ReadonlySet<string>>();

/** The exercises that a routine asks for, each once. */
export function namesInRoutine(routine: Routine): ReadonlySet<string> {
  const before = knownRoutines.get(routine);
  if (before !== undefined) return before;
  const names = new Set<string>();
  addNames(routine.content, names);
  knownRoutines.set(routine, names);
  return names;
}

function addNames(content: SessionContent, names: Set<string>): void {
  for (const item of content.items) if ("exercise" in item) names.add(item.exercise);
  if (content.short !== undefined) addNames(content.short, names);
}
